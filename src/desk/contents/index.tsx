import { type KeyboardEvent, type RefObject, useEffect, useMemo } from 'react';
import { FOOT } from '../../base/units.ts';
import type { Point } from '../../geometry/point.ts';
import type { Ref } from '../../plan/plan.ts';
import { refKey } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { PlaceFields } from '../card/common.tsx';
import { useActions, useDesk, useKinds, usePlan, useSession, useUnits } from '../context.tsx';
import { TextField } from '../controls/fields.tsx';
import { Button } from '../controls/parts.tsx';
import { useFromTop } from '../from-top.ts';
import { showRefs } from '../show.ts';
import { type ContentsRow, contentsOf } from './rows.ts';

/** Everything on the level as a list: to select, rename, delete and move without a pointer. */
export function Contents() {
  const plan = usePlan();
  const kinds = useKinds();
  const level = useSession((s) => s.level);
  const title = useFromTop(level);
  useFirstRow(title);
  const groups = useMemo(() => contentsOf(plan, level, kinds), [plan, level, kinds]);
  return (
    <div className="contents">
      <h2 className="panel-title" ref={title}>
        {plan.tables.levels.size > 1
          ? t('level.on', {
              title: t('contents.title'),
              level: plan.tables.levels.get(level)!.name,
            })
          : t('contents.title')}
      </h2>
      <p className="note">{groups.length === 0 ? t('contents.none') : t('contents.hint')}</p>
      {groups.map((group) => (
        <details key={group.table} className="contents-group" open={group.rows.length <= 40}>
          <summary>
            <h3>{group.title}</h3>
          </summary>
          <ul className="plain-list">
            {group.rows.map((row) => (
              <Row key={refKey(row.ref)} row={row} />
            ))}
          </ul>
        </details>
      ))}
    </div>
  );
}

/** Puts the focus into the list when it opens, so that the keys that it names work at once. */
function useFirstRow(title: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const list = title.current?.closest('.contents');
    const row =
      list?.querySelector<HTMLElement>('.contents-row[aria-expanded="true"]') ??
      list?.querySelector<HTMLElement>('[open] .contents-row') ??
      list?.querySelector<HTMLElement>('summary');
    row?.focus({ preventScroll: row.ariaExpanded !== 'true' });
  }, [title]);
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** One press moves by a foot or 0.1 m; with Shift by an inch or a centimetre. */
const STEPS = { ft: { whole: FOOT, fine: 25.4 }, m: { whole: 100, fine: 10 } };

function Row({ row }: { row: ContentsRow }) {
  const { session } = useDesk();
  const actions = useActions();
  const units = useUnits();
  const picked = useSession((s) => s.selection.some((ref) => refKey(ref) === refKey(row.ref)));
  const key = (event: KeyboardEvent<HTMLButtonElement>) => {
    const arrow = ARROWS[event.key];
    if (arrow && event.altKey) {
      event.preventDefault();
      const step = event.shiftKey ? STEPS[units].fine : STEPS[units].whole;
      actions.run(
        'move',
        { refs: [row.ref], by: [arrow[0] * step, arrow[1] * step] },
        `nudge ${refKey(row.ref)}`,
      );
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      stepFocus(event.currentTarget, event.key === 'ArrowDown' ? 1 : -1);
    } else if (event.key === 'Delete' || event.key === 'Backspace') {
      event.preventDefault();
      stepFocus(event.currentTarget, 1);
      actions.run('delete', { refs: [row.ref] });
    }
  };
  return (
    <li>
      <button
        type="button"
        className="list-row contents-row"
        aria-expanded={picked}
        onClick={() => (picked ? actions.select([]) : showRefs(session, [row.ref]))}
        onPointerEnter={() => actions.set({ hover: row.ref })}
        onPointerLeave={() => actions.set({ hover: null })}
        onKeyDown={key}
      >
        <span className="grow">{row.name}</span>
        <span className="list-detail">
          {row.detail} {row.built}
        </span>
      </button>
      {picked ? <RowFields of={row.ref} name={row.name} /> : null}
    </li>
  );
}

/** Puts the focus on the row before or after, over the borders of the groups. */
function stepFocus(from: HTMLElement, by: 1 | -1): void {
  const rows = [...(from.closest('.contents')?.querySelectorAll('.contents-row') ?? [])].filter(
    (row): row is HTMLElement => row instanceof HTMLElement && row.offsetParent !== null,
  );
  rows[rows.indexOf(from) + by]?.focus();
}

function RowFields({ of, name }: { of: Ref; name: string }) {
  const actions = useActions();
  const plan = usePlan();
  const row = plan.tables[of.table].get(of.id) as { name?: string } | undefined;
  return (
    <div className="row-fields" key={refKey(of)}>
      {row?.name === undefined ? null : (
        <TextField
          label={t('field.name')}
          value={row.name}
          onCommit={(next) =>
            void actions.run('edit', { table: of.table, id: of.id, fields: { name: next } })
          }
        />
      )}
      <PlaceFields of={of} />
      <Button look="quiet" onClick={() => actions.run('delete', { refs: [of] })}>
        {t('contents.delete', { name })}
      </Button>
    </div>
  );
}
