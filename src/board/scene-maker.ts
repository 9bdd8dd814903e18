import type { KindRegistry } from '../kinds/kind.ts';
import type { Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import {
  alone,
  type Changed,
  changedRows,
  DRAWN,
  namesOf,
  SHAPES,
  SYMBOLS,
  without,
} from './changed-rows.ts';
import { keep } from './remember.ts';
import { drawScene, type Scene, type SceneView, sceneView } from './scene.ts';
import { type SessionStore, shownPlan } from './session.ts';

/**
 * Makes the scene of a session, and makes it anew only where something that it shows has changed.
 *
 * To find room for every label takes longer than a frame. While symbols move, all else is laid out once, without them,
 * and they are drawn over it where they are; when they rest, they find their room.
 */
export function sceneMaker(kinds: KindRegistry): (session: SessionStore) => Scene {
  const still = keep(drawScene);
  const whole = keep(drawScene);
  return (session) => {
    const { survey, preview, history } = session;
    const view = sceneView(session);
    const moving = preview ? changedRows(history.plan, preview, SYMBOLS) : NONE;
    if (!preview || moving.size === 0) {
      const plan = shownPlan(session);
      return whole(keyOf(plan, survey, view), plan, survey, kinds, view, 'all');
    }
    const key = [...keyOf(preview, survey, view, history.plan), namesOf(moving)];
    const under = still(key, without(preview, moving), survey, kinds, view, 'all');
    return together(
      under,
      drawScene(alone(preview, SYMBOLS, moving), null, kinds, view, 'symbols'),
    );
  };
}

/** One scene over another. */
const together = (under: Scene, over: Scene): Scene => ({
  layers: [...under.layers, ...over.layers],
  drawn: new Map([...under.drawn, ...over.drawn]),
});

/**
 * Makes the plan without the rows that a preview moves or takes away, which may be laid out while a gesture lasts; the
 * same plan again for as long as the same rows move.
 */
export function restingMaker(): (before: Plan, preview: Plan) => Plan {
  const still = keep(without);
  return (before, preview) => {
    const moving = changedRows(preview, before, DRAWN);
    return still([before, namesOf(moving)], before, moving);
  };
}

/** What of a plan another plan lacks or has otherwise, drawn by itself: quick, and without room for labels. */
export function sceneBetween(
  under: Plan,
  plan: Plan,
  kinds: KindRegistry,
  view: SceneView,
): Scene | null {
  const changed = changedRows(under, plan, DRAWN);
  if (changed.size === 0) return null;
  const symbols = drawScene(alone(plan, SYMBOLS, changed), null, kinds, view, 'symbols');
  const shaped = [...changed.keys()].some((table) => !SYMBOLS.includes(table as 'devices'));
  if (!shaped) return symbols;
  return together(drawScene(alone(plan, DRAWN, changed), null, kinds, view, 'shapes'), symbols);
}

const NONE: Changed = new Map();

/** The parts of a plan that its drawing follows from; `symbols` is the plan whose symbols count, by itself the same. */
const keyOf = (
  plan: Plan,
  survey: Survey | null,
  { level, leg, shown, scale, plane }: SceneView,
  symbols = plan,
): readonly unknown[] => [
  ...SHAPES.map((table) => plan.tables[table]),
  ...[...SYMBOLS, 'jacks' as const].map((table) => symbols.tables[table]),
  survey,
  level,
  leg,
  shown,
  scale,
  plane,
];
