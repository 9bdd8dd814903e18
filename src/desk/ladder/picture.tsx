import { type KeyboardEvent, memo, useEffect, useMemo, useRef, useState } from 'react';
import type { Id } from '../../base/ids.ts';
import { formatLength } from '../../base/units.ts';
import { t } from '../../text/index.ts';
import { useActions, useDesk, useSession, useUnits } from '../context.tsx';
import { pickRun } from '../show.ts';
import { barAt, barPaths, markWords, pitchFor } from './bars.ts';
import { useMarked } from './marked.ts';
import { type LadderRow, labelledBars, ladderScale } from './rows.ts';

const LEFT = 44;
const FOOT = 18;
const HEAD = 10;
const LABEL_WIDTH = 30;

/** The bars, and a legend of what stands out of them. */
export const Bars = memo(({ rows, onList }: { rows: readonly LadderRow[]; onList(): void }) => {
  const { session } = useDesk();
  const actions = useActions();
  const units = useUnits();
  const { selected, hovered: elsewhere } = useMarked();
  // Among the bars themselves the one under the pointer is marked at once.
  const [here, setHere] = useState<Id | null>(null);
  const own = useSession((s) => s.hover?.table === 'jacks' && s.hover.id === here);
  const hovered = own ? here : elsewhere;
  const [size, box] = useSize();
  const scale = useMemo(() => ladderScale(rows, units), [rows, units]);
  const pitch = pitchFor(rows.length, size.width - LEFT - 8);
  const height = Math.max(30, size.height - FOOT - HEAD);
  const width = pitch * rows.length;
  const paths = useMemo(
    () => barPaths(rows, scale, { width, height, pitch }),
    [rows, scale, width, height, pitch],
  );
  const labelled = useMemo(() => {
    const hoveredAt = rows.findIndex((row) => row.jack === hovered);
    const pickedAt = rows.flatMap((row, i) => (selected.has(row.jack) ? [i] : []));
    return labelledBars(rows.length, [hoveredAt, ...pickedAt], LABEL_WIDTH / pitch);
  }, [rows, hovered, selected, pitch]);
  const y = (mm: number) => HEAD + height - (mm / scale.top) * height;
  const at = (event: { clientX: number; currentTarget: Element }) =>
    barAt(
      event.clientX - event.currentTarget.getBoundingClientRect().left - LEFT,
      pitch,
      rows.length,
    );
  const hover = (i: number) => {
    const jack = rows[i]?.jack ?? null;
    if (own ? jack === here : jack === null) return;
    setHere(jack);
    actions.set({ hover: jack === null ? null : { table: 'jacks', id: jack } });
  };
  const said = useSaid(rows, hovered);
  /** Arrows walk along the bars, Enter picks the one that is pointed at. */
  const key = (event: KeyboardEvent) => {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    const now = rows.findIndex((row) => row.jack === hovered);
    if (step !== undefined) {
      event.preventDefault();
      hover(Math.min(rows.length - 1, Math.max(0, now + step)));
    } else if (event.key === 'Enter' && now >= 0) {
      event.preventDefault();
      pickRun(session, rows[now]!.jack, event.shiftKey);
    }
  };
  return (
    <section
      className="ladder-body"
      ref={box}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: bars beyond the edge are reached by scrolling and by the arrows
      tabIndex={0}
      aria-label={t('ladder.picture')}
      onKeyDown={key}
    >
      <svg
        className="ladder-svg"
        aria-hidden="true"
        width={Math.max(size.width, width + LEFT + 8)}
        height={size.height}
        onPointerMove={(event) => hover(at(event))}
        onPointerLeave={() => hover(-1)}
        onClick={(event) => {
          const row = rows[at(event)];
          if (row) pickRun(session, row.jack, event.shiftKey);
        }}
        onDoubleClick={onList}
      >
        {scale.marks.map((mark) => (
          <g key={mark} className="ladder-mark">
            <path d={`M${LEFT} ${y(mark)}H${Math.max(size.width, width + LEFT)}`} />
            <text x={LEFT - 6} y={y(mark) + 4} textAnchor="end">
              {markWords(mark, units)}
            </text>
          </g>
        ))}
        <g transform={`translate(${LEFT} ${HEAD})`}>
          <path className="bar-slack" d={paths.slack} />
          <path className="bar-vertical" d={paths.vertical} />
          <path className="bar-along" d={paths.along} />
          <path className="bar-limit" d={paths.limits} />
        </g>
        {rows.map((row, i) => (
          <BarMark
            key={row.jack}
            row={row}
            x={LEFT + i * pitch}
            pitch={pitch}
            top={y(row.cable)}
            foot={HEAD + height}
            picked={selected.has(row.jack)}
            hovered={row.jack === hovered}
            labelled={labelled.has(i)}
          />
        ))}
        <path
          className="ladder-floor"
          d={`M${LEFT} ${HEAD + height}H${Math.max(size.width, width + LEFT)}`}
        />
      </svg>
      <p className="unseen" aria-live="polite">
        {said}
      </p>
    </section>
  );
});

/** What is said of the bar that is pointed at. */
function useSaid(rows: readonly LadderRow[], hovered: Id | null): string {
  const units = useUnits();
  const row = rows.find((r) => r.jack === hovered);
  if (!row) return '';
  return t('ladder.says', {
    label: row.label,
    cable: formatLength(row.cable, units),
    limit: formatLength(row.limit, units),
    state: t(`status.${row.status}`),
  });
}

/** The shape of a state, above its bar or on the floor: a triangle, a square, a cross. */
function stateShape(
  status: LadderRow['status'],
  middle: number,
  top: number,
  foot: number,
  wide: number,
): string {
  const left = middle - wide / 2;
  return {
    near: `M${left} ${top - 2}h${wide}l${-wide / 2} -7z`,
    over: `M${left} ${top - 9.5}h${wide}v8h${-wide}z`,
    unroutable: `M${left} ${foot - 9}l${wide} 7m0-7l${-wide} 7`,
    ok: '',
  }[status];
}

/** What stands out of a bar: its label, its state by shape, and whether it is picked or pointed at. */
const BarMark = memo(
  ({
    row,
    x,
    pitch,
    top,
    foot,
    picked,
    hovered,
    labelled,
  }: {
    row: LadderRow;
    x: number;
    pitch: number;
    top: number;
    foot: number;
    picked: boolean;
    hovered: boolean;
    labelled: boolean;
  }) => {
    const marked = row.status !== 'ok';
    if (!marked && !picked && !hovered && !labelled) return null;
    const middle = x + pitch / 2;
    const shape = stateShape(row.status, middle, top, foot, Math.min(8, pitch - 1));
    return (
      <g>
        {picked || hovered ? (
          <rect
            className={picked ? 'bar-picked' : 'bar-hovered'}
            x={x}
            y={Math.min(top, foot - 4) - 1}
            width={pitch}
            height={Math.max(5, foot - top + 1)}
          />
        ) : null}
        {marked ? <path className={`bar-shape bar-${row.status}`} d={shape} /> : null}
        {labelled ? (
          <text
            className={`bar-label${picked ? ' bar-label-picked' : ''}${hovered ? ' bar-label-hovered' : ''}`}
            x={middle}
            y={foot + 13}
            textAnchor="middle"
          >
            {row.label}
          </text>
        ) : null}
      </g>
    );
  },
);

/** The size of a box as it changes. */
function useSize() {
  const box = useRef<HTMLElement>(null);
  const [size, setSize] = useState({ width: 600, height: 120 });
  useEffect(() => {
    const element = box.current;
    if (!element) return;
    const observer = new ResizeObserver(([entry]) => {
      const { width, height } = entry!.contentRect;
      setSize((old) => (old.width === width && old.height === height ? old : { width, height }));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [size, box] as const;
}
