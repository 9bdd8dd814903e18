import type { Point } from '../../geometry/point.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import type { Plan } from '../../plan/plan.ts';
import { noRows } from '../../plan/sent-rows.ts';
import type { Survey } from '../../results/types.ts';
import { rowsDrawn } from '../changed-rows.ts';
import { keep } from '../remember.ts';
import { drawScene, type Scene, type SceneLayer, type SceneView, sceneView } from '../scene.ts';
import { restingMaker, sceneBetween, sceneMaker } from '../scene-maker.ts';
import { type SessionStore, shownPlan } from '../session.ts';
import { paced } from './pace.ts';
import type { BoardTheme } from './paint-board.ts';
import { createPlates, openDraughter, type Plate, type Plates } from './plates.ts';

/** What the board paints of a session, from the lowest: pictures, a plate, and what is painted on the spot. */
export interface Shown {
  readonly pictures: readonly SceneLayer[];
  readonly plate: Plate | null;
  readonly scene: Scene;
  /** Where symbols are drawn, by their row. */
  readonly places: ReadonlyMap<string, Point>;
}

export interface Drawing {
  at(session: SessionStore, theme: BoardTheme, ratio: number): Shown;
  dispose(): void;
}

/** Plans of more rows than this take longer than a frame to lay out and paint: a worker does both. */
const CROWDED = 600;

/** The drawing of a session; `again` is called when there is something newer to paint. */
export function createDrawing(kinds: KindRegistry, again: () => void): Drawing {
  const newer = () => {
    last = null;
    again();
  };
  const here = paced(sceneMaker(kinds), newer);
  const aside = createAside(kinds, newer);
  /** Both canvases of a frame ask for the same. */
  let last: { readonly of: readonly unknown[]; readonly shown: Shown } | null = null;

  function make(session: SessionStore, theme: BoardTheme, ratio: number): Shown {
    const there = rowsDrawn(session.history.plan) > CROWDED && aside.at(session, theme, ratio);
    if (there) return there;
    const scene = here(session);
    return { pictures: [], plate: null, scene, places: scene.drawn };
  }

  return {
    at(...of) {
      if (last?.of.some((value, i) => value !== of[i]) !== false) last = { of, shown: make(...of) };
      return last.shown;
    },
    dispose: aside.dispose,
  };
}

const NOTHING: Scene = { layers: [], drawn: new Map() };

/** A plan's pictures by themselves: thousands of walls are not looked at with each step of zoom to lay none out. */
const picturesOf = ({ tables: { job, levels, backgrounds } }: Plan): Plan => ({
  tables: { ...noRows().tables, job, levels, backgrounds },
});

/** Drawing by plates; null where the browser has no worker that can draw, or it died. */
function createAside(kinds: KindRegistry, again: () => void) {
  const resting = restingMaker();
  const pictures = keep((plan: Plan, view: SceneView) =>
    drawScene(picturesOf(plan), null, kinds, view, 'pictures'),
  );
  const viewOf = keep(sceneView);
  const between = keep(sceneBetween);
  let plates: Plates | null = null;
  let survey: Survey | null = null;
  let able = typeof Worker !== 'undefined' && typeof OffscreenCanvas !== 'undefined';

  function dispose(): void {
    plates?.dispose();
    plates = null;
  }

  function died(): void {
    able = false;
    dispose();
    again();
  }

  function at(session: SessionStore, theme: BoardTheme, ratio: number): Shown | null {
    if (!able) return null;
    plates ??= createPlates(openDraughter(died), again);
    const { history, preview, viewport: place, level, leg, shown } = session;
    // Surveys of a gesture come often and are laid out when it is over; the way home of what moves is drawn over.
    if (!preview) survey = session.survey;
    const { scale, plane } = sceneView(session);
    const view: SceneView = viewOf([level, leg, shown, scale, plane], session);
    const plan = preview ? resting(history.plan, preview) : history.plan;
    const newest = plates.get({ plan, survey, view, place, theme, ratio });
    const plate = newest?.view.level === level && newest.theme === theme ? newest : null;
    const under = pictures([plan.tables.backgrounds, view], plan, view);
    const now = shownPlan(session);
    const over = plate && between([plate.plan, now, view], plate.plan, now, kinds, view);
    const scene = over ?? NOTHING;
    const places = plate?.drawn ?? scene.drawn;
    return {
      pictures: under.layers,
      plate,
      scene,
      places: scene.drawn.size === 0 ? places : new Map([...places, ...scene.drawn]),
    };
  }

  return { at, dispose };
}
