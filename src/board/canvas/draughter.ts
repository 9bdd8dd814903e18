import { isSame } from '../../base/same.ts';
import { atOnce, type Steps } from '../../base/steps.ts';
import type { Point } from '../../geometry/point.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import type { Plan } from '../../plan/plan.ts';
import { noRows, withRows } from '../../plan/sent-rows.ts';
import type { CeilingPlane } from '../../results/ceiling-plane.ts';
import type { Run, Survey } from '../../results/types.ts';
import { paperPixels, sceneSteps } from '../scene.ts';
import type { Viewport } from '../session.ts';
import { planFrame } from './paint.ts';
import { type Area, createStamps, paintPrepared } from './paint-prepared.ts';
import { type PlateAnswer, type PlateAsk, plateRound, sentKeys, unpackDrawn } from './plate.ts';
import { type Prepared, prepareSteps } from './prepared.ts';

export interface DraughterParts {
  readonly kinds: KindRegistry;
  canvas(width: number, height: number): OffscreenCanvas;
  answer(answer: PlateAnswer): void;
  /** Calls back later; returns what calls it off. */
  later(run: () => void, ms: number): () => void;
  now(): number;
}

/** A layout takes longer than a picture: it waits until nobody has asked for this long, but no longer than that, ms. */
const REST = 120;
const LONGEST = 1500;
/** It is made in moments of this length, ms: a view that is asked for meanwhile does not wait for all of it. */
const MOMENT = 10;
/** After such a view it waits until no other has come for this long, so that none of a movement meets it, ms. */
const BREATH = 50;

/** A layout: marks ready to be painted, what they are of, and where symbols stand. */
interface Layout {
  readonly of: PlateAsk;
  readonly prepared: Prepared;
  readonly drawn: ReadonlyMap<string, Point>;
}

/** A layout that is under way: what it is of, the rows that changed since it began, and whether anything did. */
interface Under {
  readonly of: PlateAsk;
  readonly steps: Steps<Layout>;
  readonly moved: Set<string>;
  older: boolean;
}

/** What is on the canvas. */
interface Painted {
  readonly place: Viewport;
  readonly by: readonly unknown[];
}

/**
 * Draws plates: lays the plan out for the zoom, and paints it. A new view is painted at once from the layout that
 * there is; only the strips that have come into view where it was merely moved. What changed since is left out until
 * the next layout, so that nothing stands where it no longer is.
 */
export function createDraughter(parts: DraughterParts): (ask: PlateAsk) => void {
  const { kinds, later, now } = parts;
  const stamps = createStamps(parts.canvas);
  let plan: Plan = noRows();
  let runs: readonly Run[] = [];
  let survey: Survey | null = null;
  let plane: CeilingPlane | null = null;
  let latest: PlateAsk | null = null;
  let layout: Layout | null = null;
  let told: Layout | null = null;
  let hidden: ReadonlySet<string> = new Set();
  let canvas: OffscreenCanvas | null = null;
  let painted: Painted | null = null;
  let callOff: (() => void) | null = null;
  let since = 0;
  let under: Under | null = null;
  let unpainted: (() => void) | null = null;

  function* laidOut(of: PlateAsk): Steps<Layout> {
    const scene = yield* sceneSteps(plan, survey, kinds, { ...of.view, plane }, 'lines');
    return { of, prepared: yield* prepareSteps(scene.layers), drawn: scene.drawn };
  }

  function layOut(): void {
    callOff?.();
    callOff = null;
    under = null;
    layout = atOnce(laidOut(latest!));
    hidden = new Set();
  }

  function soon(): void {
    // One that is under way is done first: a hand that never rests would never see it otherwise.
    if (under) return;
    callOff?.();
    if (!callOff) since = now();
    const wait = Math.max(0, Math.min(REST, since + LONGEST - now()));
    callOff = later(() => {
      under = { of: latest!, steps: laidOut(latest!), moved: new Set(), older: false };
      further();
    }, wait);
  }

  /** Puts the next moment of a layout off while a hand moves, but not for ever. */
  function giveWay(): void {
    callOff?.();
    callOff = later(further, Math.max(0, Math.min(BREATH, since + LONGEST - now())));
  }

  /** Lays out for a moment, and then again when whatever was asked meanwhile has been painted. */
  function further(): void {
    callOff = null;
    const { of, steps, moved, older } = under!;
    const start = now();
    for (;;) {
      const step = steps.next();
      if (step.done) {
        under = null;
        layout = step.value;
        hidden = new Set([...moved].filter((key) => layout!.drawn.has(key)));
        // A view that was asked for during the last moment is painted first, and then this one is there as well.
        unpainted = later(paint, 0);
        if (older || latest!.view.scale !== of.view.scale) soon();
        return;
      }
      if (now() - start >= MOMENT) {
        callOff = later(further, 0);
        return;
      }
    }
  }

  /** Moves what is painted to a new place, by whole device pixels; says what has to be painted there. */
  function shift(on: OffscreenCanvasRenderingContext2D, asked: Viewport, ratio: number) {
    const { place } = painted!;
    const step = place.scale * ratio;
    const dx = Math.round((place.left - asked.left) * step);
    const dy = Math.round((place.top - asked.top) * step);
    if (dx !== 0 || dy !== 0) {
      on.globalCompositeOperation = 'copy';
      on.drawImage(on.canvas, dx, dy);
      on.globalCompositeOperation = 'source-over';
    }
    return {
      place: { ...asked, left: place.left - dx / step, top: place.top - dy / step },
      areas: stripsOf(asked, dx / ratio, dy / ratio),
    };
  }

  function paint(): void {
    unpainted?.();
    unpainted = null;
    const { place: board, theme, ratio } = latest!;
    const { prepared } = layout!;
    const asked = plateRound(board);
    const { width, height, scale } = asked;
    const [across, down] = [Math.round(width * ratio), Math.round(height * ratio)];
    const by = [prepared, hidden, theme, ratio, across, down, scale];
    if (canvas?.width !== across || canvas.height !== down) canvas = parts.canvas(across, down);
    const context = canvas.getContext('2d')!;
    const { place, areas } = by.every((value, i) => value === painted?.by[i])
      ? shift(context, asked, ratio)
      : { place: asked, areas: [{ x: 0, y: 0, width, height }] };
    for (const area of areas) {
      context.save();
      context.scale(ratio, ratio);
      context.beginPath();
      context.rect(area.x, area.y, area.width, area.height);
      context.clip();
      context.clearRect(area.x, area.y, area.width, area.height);
      const press = { context, theme, ratio, paper: paperPixels(scale), stamps };
      paintPrepared(press, prepared, planFrame(place), area, hidden);
      context.restore();
    }
    painted = { place, by };
    send(place);
  }

  function send(place: Viewport): void {
    const { id, ratio } = latest!;
    const copy = parts.canvas(canvas!.width, canvas!.height);
    const context = copy.getContext('2d')!;
    context.globalCompositeOperation = 'copy';
    context.drawImage(canvas!, 0, 0);
    const bitmap = copy.transferToImageBitmap();
    const news = told === layout ? {} : { drawn: layout!.drawn };
    told = layout;
    parts.answer({ id, laid: layout!.of.id, bitmap, place, ratio, hidden, ...news });
  }

  return (ask) => {
    const before = latest;
    latest = ask;
    plan = withRows(plan, ask.rows);
    if (ask.survey !== undefined) {
      survey = ask.survey && unpackDrawn(ask.survey, runs);
      runs = survey?.runs ?? [];
    }
    if (ask.plane !== undefined) plane = ask.plane;
    if (!layout || !before || ask.plane !== undefined || otherDrawing(layout.of, ask)) layOut();
    else if (
      ask.rows.length > 0 ||
      ask.survey !== undefined ||
      ask.view.scale !== layout.of.view.scale
    ) {
      const moved = sentKeys(ask.rows);
      const gone = moved.filter((key) => layout!.drawn.has(key));
      if (gone.length > 0) hidden = new Set([...hidden, ...gone]);
      if (under) {
        for (const key of moved) under.moved.add(key);
        under.older ||= moved.length > 0 || ask.survey !== undefined;
      }
      soon();
    } else if (callOff) soon();
    if (under) giveWay();
    paint();
  };
}

/** Whether a layout shows something else than what is asked for, and not only an older state of it. */
const otherDrawing = ({ view: a }: PlateAsk, { view: b }: PlateAsk): boolean =>
  // What is shown is another object in every message.
  a.level !== b.level || a.leg !== b.leg || !isSame(a.shown, b.shown);

/** The strips that come into view when a picture moves by some px. */
function stripsOf({ width, height }: Viewport, dx: number, dy: number): readonly Area[] {
  if (Math.abs(dx) >= width || Math.abs(dy) >= height) return [{ x: 0, y: 0, width, height }];
  const [w, h] = [Math.abs(dx), Math.abs(dy)];
  return [
    { x: dx > 0 ? 0 : width - w, y: 0, width: w, height },
    { x: 0, y: dy > 0 ? 0 : height - h, width, height: h },
  ].filter((area) => area.width > 0 && area.height > 0);
}
