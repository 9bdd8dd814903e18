import { type KeyboardEvent, useEffect, useMemo, useRef, useState } from 'react';
import type { Id } from '../../base/ids.ts';
import { formatLength, formatTotal } from '../../base/units.ts';
import type { Survey } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { StatusTag } from '../card/run-card.tsx';
import { useActions, useSession, useUnits } from '../context.tsx';
import { Segments } from '../controls/choices.tsx';
import { barAt, barPaths, pitchFor } from './bars.ts';
import { type LadderOrder, type LadderRow, labelledBars, ladderRows, ladderScale } from './rows.ts';

type Form = 'bars' | 'list';

/** Every run against its own limit: as bars, or as a list that says the same. */
export function Ladder() {
  const survey = useSession((s) => s.survey);
  const [order, setOrder] = useState<LadderOrder>('length');
  const [form, setForm] = useState<Form>('bars');
  const rows = useMemo(() => ladderRows(survey?.runs ?? [], order), [survey, order]);
  return (
    <section className="ladder" aria-label={t('ladder.title')}>
      <header className="ladder-head">
        <h2 className="ladder-title">{t('ladder.title')}</h2>
        <LadderSays survey={survey} rows={rows} />
        <span className="grow" />
        <Segments<LadderOrder>
          quiet
          label={t('ladder.order')}
          value={order}
          options={[
            { value: 'length', label: t('ladder.by-length') },
            { value: 'label', label: t('ladder.by-label') },
          ]}
          onChoose={setOrder}
        />
        <Segments<Form>
          quiet
          label={t('ladder.form')}
          value={form}
          options={[
            { value: 'bars', label: t('ladder.bars') },
            { value: 'list', label: t('ladder.list') },
          ]}
          onChoose={setForm}
        />
      </header>
      {rows.length === 0 ? (
        <p className="ladder-none">{t('ladder.none')}</p>
      ) : form === 'bars' ? (
        <>
          <Bars rows={rows} onList={() => setForm('list')} />
          <Legend rows={rows} />
        </>
      ) : (
        <List rows={rows} />
      )}
    </section>
  );
}

function LadderSays({ survey, rows }: { survey: Survey | null; rows: readonly LadderRow[] }) {
  const units = useUnits();
  if (!survey || rows.length === 0) return null;
  const near = rows.filter((row) => row.status === 'near').length;
  const over = rows.filter((row) => row.status === 'over').length;
  const lost = rows.filter((row) => row.status === 'unroutable').length;
  return (
    <p className="ladder-says">
      {t.count('runs.count', rows.length)}, {formatTotal(survey.totals.cable, units)}
      {near > 0 ? (
        <b className="status status-near">▲ {t('ladder.near', { count: near })}</b>
      ) : null}
      {over > 0 ? (
        <b className="status status-over">■ {t('ladder.over', { count: over })}</b>
      ) : null}
      {lost > 0 ? (
        <b className="status status-unroutable">✕ {t('ladder.lost', { count: lost })}</b>
      ) : null}
    </p>
  );
}

/** The jacks of what is selected on the board, and of what is under the pointer. */
function useMarked(): { selected: ReadonlySet<Id>; hovered: Id | null } {
  const selection = useSession((s) => s.selection);
  const hover = useSession((s) => s.hover);
  const jacks = useSession((s) => s.history.plan.tables.jacks);
  return useMemo(() => {
    const selected = new Set<Id>();
    for (const jack of jacks.values())
      for (const ref of selection)
        if (
          (ref.table === 'jacks' && ref.id === jack.id) ||
          (ref.table === 'outlets' && ref.id === jack.outlet) ||
          (ref.table === 'devices' && ref.id === jack.device)
        )
          selected.add(jack.id);
    return { selected, hovered: hover?.table === 'jacks' ? hover.id : null };
  }, [selection, hover, jacks]);
}

const LEFT = 44;
const FOOT = 18;
const HEAD = 10;
const LABEL_WIDTH = 30;

function Bars({ rows, onList }: { rows: readonly LadderRow[]; onList(): void }) {
  const actions = useActions();
  const units = useUnits();
  const { selected, hovered } = useMarked();
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
    if (jack !== hovered)
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
      actions.select([{ table: 'jacks', id: rows[now]!.jack }]);
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
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the list beside it is the same for the keyboard */}
      <svg
        className="ladder-svg"
        aria-hidden="true"
        width={Math.max(size.width, width + LEFT + 8)}
        height={size.height}
        onPointerMove={(event) => hover(at(event))}
        onPointerLeave={() => hover(-1)}
        onClick={(event) => {
          const row = rows[at(event)];
          if (row) actions.select([{ table: 'jacks', id: row.jack }]);
        }}
        onDoubleClick={onList}
      >
        {scale.marks.map((mark) => (
          <g key={mark} className="ladder-mark">
            <path d={`M${LEFT} ${y(mark)}H${Math.max(size.width, width + LEFT)}`} />
            <text x={LEFT - 6} y={y(mark) + 4} textAnchor="end">
              {formatLength(mark, units)}
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
}

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

/** What stands out of a bar: its label, its state by shape, and whether it is picked or pointed at. */
function BarMark({
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
}) {
  const marked = row.status !== 'ok';
  if (!marked && !picked && !hovered && !labelled) return null;
  const middle = x + pitch / 2;
  const shape = {
    near: `M${middle - 4} ${top - 2}l4-7 4 7z`,
    over: `M${middle - 4} ${top - 9.5}h8v8h-8z`,
    unroutable: `M${middle - 3.5} ${foot - 9}l7 7m0-7-7 7`,
    ok: '',
  }[row.status];
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
}

function Legend({ rows }: { rows: readonly LadderRow[] }) {
  const units = useUnits();
  const { limit, limitInside } = useMemo(() => ladderScale(rows, units), [rows, units]);
  return (
    <ul className="ladder-legend">
      {(['along', 'vertical', 'slack'] as const).map((group) => (
        <li key={group}>
          <span className={`swatch swatch-${group}`} aria-hidden="true" />
          {t(`part.${group}`)}
        </li>
      ))}
      {limit === null ? null : (
        <li className="legend-limit">
          {limitInside
            ? t('ladder.limit', { limit: formatLength(limit, units) })
            : t('ladder.limit-above', { limit: formatLength(limit, units) })}
        </li>
      )}
    </ul>
  );
}

/** The same as a table, for the keyboard, for screen readers, and for whoever likes figures. */
function List({ rows }: { rows: readonly LadderRow[] }) {
  const actions = useActions();
  const units = useUnits();
  const { selected } = useMarked();
  const show = (mm: number) => formatLength(mm, units);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard
    <section className="ladder-list" tabIndex={0} aria-label={t('ladder.list')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{t('ladder.col.run')}</th>
            <th scope="col">{t('part.along')}</th>
            <th scope="col">{t('part.vertical')}</th>
            <th scope="col">{t('part.slack')}</th>
            <th scope="col">{t('run.cable')}</th>
            <th scope="col">{t('ladder.col.limit')}</th>
            <th scope="col">{t('ladder.col.state')}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.jack} className={selected.has(row.jack) ? 'picked' : undefined}>
              <th scope="row">
                <button
                  type="button"
                  className="link"
                  aria-current={selected.has(row.jack) ? 'true' : undefined}
                  onClick={() => actions.select([{ table: 'jacks', id: row.jack }])}
                >
                  {row.label}
                </button>
              </th>
              <td>{show(row.along)}</td>
              <td>{show(row.vertical)}</td>
              <td>{show(row.slack)}</td>
              <td>{show(row.cable)}</td>
              <td>{show(row.limit)}</td>
              <td>
                <StatusTag run={row} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

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
