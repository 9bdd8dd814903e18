import { FOOT, INCH } from '../base/units.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { levelBeside } from '../plan/levels.ts';
import { isLocked } from '../plan/locks.ts';
import { DRAWN, job, onLevel, type Ref } from '../plan/plan.ts';
import { withRoomCompany } from '../plan/room-company.ts';
import { type SessionApi, shownPlan } from './session.ts';
import { tools } from './tools/index.ts';
import { turnLevel } from './turn-level.ts';

/** What keys do to a session. Each answers whether it meant something: a key that does not is left to the browser. */

/** Moves what is selected by an inch or a centimetre, by a foot or ten with Shift; nudges of one row are one step. */
export function nudge(session: SessionApi, by: Point, shift: boolean, row: number): boolean {
  const { selection, actions, history } = session.getState();
  const metric = job(history.plan).units === 'm';
  const mm = metric ? (shift ? 100 : 10) : shift ? FOOT : INCH;
  const fixed = (ref: Ref): boolean =>
    ref.table === 'backgrounds' && history.plan.tables.backgrounds.get(ref.id)?.locked === true;
  const refs = selection.filter((ref) => !fixed(ref));
  if (refs.length === 0) return false;
  const args = {
    refs: withRoomCompany(history.plan, refs),
    by: [by[0] * mm, by[1] * mm] as Point,
  };
  return actions.run('move', args, `nudge ${row}`);
}

/** Selects all that is drawn on the level. */
export function selectAll(session: SessionApi): boolean {
  const s = session.getState();
  const refs: Ref[] = DRAWN.flatMap((table) =>
    onLevel(shownPlan(s), table, s.level).map(({ id }) => ({ table, id })),
  );
  s.actions.pick('select');
  s.actions.select(refs);
  return true;
}

/** Turns to the level above or below, where there is one. */
export function otherLevel(session: SessionApi, by: 1 | -1): boolean {
  const { history, level } = session.getState();
  const next = levelBeside(history.plan, level, by);
  if (!next) return false;
  turnLevel(session, next.id);
  return true;
}

/** Mirrors what is selected. */
export function mirror(session: SessionApi): boolean {
  const { selection: refs, actions } = session.getState();
  return refs.length > 0 && actions.run('mirror', { refs, across: 'x' });
}

/** Locks what is selected, or unlocks it where all of it is locked. */
export function lock(session: SessionApi): boolean {
  const { selection: refs, actions, history } = session.getState();
  if (refs.length === 0) return false;
  return actions.run('lock', { refs, locked: !refs.every((ref) => isLocked(history.plan, ref)) });
}

/** Turns what is selected by so many degrees. */
export function rotate(session: SessionApi, by: number): boolean {
  const { selection: refs, actions } = session.getState();
  return refs.length > 0 && actions.run('rotate', { refs, by });
}

/** Deletes what is selected. */
export function remove(session: SessionApi): boolean {
  const { selection: refs, actions } = session.getState();
  return refs.length > 0 && actions.run('delete', { refs });
}

/** Takes the tool, or the kind of device, into the hand that names a key as its own. */
export function pickByKey(session: SessionApi, kinds: KindRegistry, key: string): boolean {
  const { actions } = session.getState();
  for (const tool of tools.values())
    if (tool.key === key) {
      actions.pick(tool.id);
      return true;
    }
  for (const kind of kinds.values())
    if (kind.key === key) {
      actions.pick('device', kind.id);
      return true;
    }
  return false;
}
