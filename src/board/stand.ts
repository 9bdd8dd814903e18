import type { Point } from '../geometry/point.ts';
import { undoable } from '../plan/history.ts';
import { job } from '../plan/plan.ts';
import type { SessionApi, SessionStore } from './session.ts';
import { gridStep } from './snap.ts';

/** Where a drawing begins that begins with a typed length. */
export interface Stand {
  /** Null where none was said. */
  get(): Point | null;
  /** Where none was said: the zero of the plan where it is seen, else the middle of the board, on the grid. */
  orFirst(): Point;
  put(at: Point): void;
  /** Goes along with a step of the session; true where the stand is another now. */
  follow(now: SessionStore, before: SessionStore): boolean;
}

/** Each step of the history has a stand of its own, so that a step back goes back to where it began. */
export function createStand(session: SessionApi): Stand {
  let stand: Point | null = null;
  const stands = new WeakMap<object, Point>();
  const lastStep = ({ history, opened }: SessionStore): object => undoable(history) ?? opened;

  return {
    get: () => stand,
    orFirst() {
      if (stand) return stand;
      const { history, viewport } = session.getState();
      const { left, top, width, height, scale } = viewport;
      if (left < 0 && top < 0 && left + width / scale > 0 && top + height / scale > 0)
        return [0, 0];
      const grid = gridStep(job(history.plan).units, 1 / scale);
      const onGrid = (v: number) => Math.round(Math.round(v / grid) * grid) + 0;
      return [onGrid(left + width / 2 / scale), onGrid(top + height / 2 / scale)];
    },
    put(at) {
      stand = at;
      stands.set(lastStep(session.getState()), at);
    },
    follow(now, before) {
      const was = stand;
      if (now.opened !== before.opened) stand = null;
      else if (now.history.plan !== before.history.plan) stand = stands.get(lastStep(now)) ?? stand;
      return stand !== was;
    },
  };
}
