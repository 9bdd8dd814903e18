import type { Point } from '../../geometry/point.ts';
import { type Plan, refKey } from '../../plan/plan.ts';
import { rowsBetween } from '../../plan/sent-rows.ts';
import type { Run, Survey } from '../../results/types.ts';
import type { SceneView } from '../scene.ts';
import type { Viewport } from '../session.ts';
import type { BoardTheme } from './paint-board.ts';
import { type PlateAnswer, type PlateAsk, packDrawn } from './plate.ts';

/** What a plate shows. */
export interface Wanted {
  readonly plan: Plan;
  readonly survey: Survey | null;
  readonly view: SceneView;
  readonly place: Viewport;
  readonly theme: BoardTheme;
  readonly ratio: number;
}

/** The drawing as it was at some place a moment ago. */
export interface Plate {
  readonly bitmap: ImageBitmap;
  readonly place: Viewport;
  readonly view: SceneView;
  readonly theme: BoardTheme;
  /** The rows that are drawn on it. */
  readonly plan: Plan;
  readonly drawn: ReadonlyMap<string, Point>;
}

export interface Plates {
  /** The newest plate there is, after asking for a newer one if this is not what is wanted; null before the first. */
  get(wanted: Wanted): Plate | null;
  dispose(): void;
}

/** The other end: a worker, or a stand-in of it. */
export interface PlateLine {
  post(ask: PlateAsk): void;
  close(): void;
}

/**
 * Asks for plates: one ask is under way and the newest waits, so that a movement is answered as fast as plates are
 * drawn. `came` is called with each plate.
 */
export function createPlates(
  open: (answered: (answer: PlateAnswer) => void) => PlateLine,
  came: () => void,
): Plates {
  const line = open(answered);
  const asked = new Map<number, Wanted>();
  let plate: Plate | null = null;
  let known: Wanted | null = null;
  let runs: readonly Run[] = [];
  let waiting: Wanted | null = null;
  let id = 0;
  let busy = false;

  function next(): void {
    if (busy || !waiting) return;
    const wanted = waiting;
    waiting = null;
    busy = true;
    id += 1;
    const { plan, survey, view, place, theme, ratio } = wanted;
    const news =
      known && survey === known.survey ? {} : { survey: survey && packDrawn(survey, runs) };
    const { plane = null, ...seen } = view;
    const overhead = plane === (known?.view.plane ?? null) ? {} : { plane };
    line.post({
      id,
      rows: rowsBetween(known?.plan ?? null, plan),
      view: seen,
      place,
      theme,
      ratio,
      ...news,
      ...overhead,
    });
    if (survey !== known?.survey) runs = survey?.runs ?? [];
    known = wanted;
    asked.set(id, wanted);
  }

  function answered({ id: of, laid, bitmap, place, hidden, drawn }: PlateAnswer): void {
    const { plan, view } = asked.get(laid)!;
    const { theme } = asked.get(of)!;
    const before = plate;
    plate = {
      bitmap,
      place,
      view,
      theme,
      plan: withoutRows(plan, hidden),
      drawn: drawn ?? before!.drawn,
    };
    before?.bitmap.close();
    for (const old of asked.keys()) if (old < Math.min(laid, of)) asked.delete(old);
    if (of === id) busy = false;
    came();
    next();
  }

  return {
    get(wanted) {
      const last = waiting ?? known;
      if (!last || KEYS.some((key) => wanted[key] !== last[key])) {
        waiting = wanted;
        next();
      }
      return plate;
    },
    dispose() {
      line.close();
      plate?.bitmap.close();
    },
  };
}

const KEYS = ['plan', 'survey', 'view', 'place', 'theme', 'ratio'] as const;

/** A plan without some rows, by their keys. */
function withoutRows(plan: Plan, keys: ReadonlySet<string>): Plan {
  if (keys.size === 0) return plan;
  const tables = Object.entries(plan.tables).map(([table, rows]) => [
    table,
    new Map(
      [...(rows as ReadonlyMap<string, unknown>)].filter(
        ([id]) => !keys.has(refKey({ table: table as 'devices', id })),
      ),
    ),
  ]);
  return { tables: Object.fromEntries(tables) as Plan['tables'] };
}

/** Opens a line to a worker of its own. */
export const openDraughter =
  (died: () => void) =>
  (answered: (answer: PlateAnswer) => void): PlateLine => {
    const worker = new Worker(new URL('./draughter-entry.ts', import.meta.url), { type: 'module' });
    worker.postMessage(new URL('fonts/', document.baseURI).href);
    worker.addEventListener('message', ({ data }: MessageEvent<PlateAnswer>) => answered(data));
    worker.addEventListener('error', died);
    worker.addEventListener('messageerror', died);
    return { post: (ask) => worker.postMessage(ask), close: () => worker.terminate() };
  };
