import type { Point } from '../../geometry/point.ts';
import { refKey } from '../../plan/plan.ts';
import type { SentRow } from '../../plan/sent-rows.ts';
import type { CeilingPlane } from '../../results/ceiling-plane.ts';
import type { Run, Survey, Way } from '../../results/types.ts';
import type { SceneView } from '../scene.ts';
import type { Viewport } from '../session.ts';
import type { BoardTheme } from './paint-board.ts';

/**
 * What travels between the board and the worker that draws crowded plans for it. The board asks for a drawing at a
 * place; the worker answers with a plate: the drawing as a bitmap, larger than the board by a margin.
 */
export interface PlateAsk {
  readonly id: number;
  /** Rows that are not as in the ask before. */
  readonly rows: readonly SentRow[];
  /** Left out where it is as in the ask before. */
  readonly survey?: SentSurvey | null;
  readonly view: Omit<SceneView, 'plane'>;
  /** Left out where it is as in the ask before. */
  readonly plane?: CeilingPlane | null;
  readonly place: Viewport;
  readonly theme: BoardTheme;
  /** Device pixels for one of the screen. */
  readonly ratio: number;
}

export interface PlateAnswer {
  /** The newest ask that it answers, and the one whose plan and survey it is laid out for. */
  readonly id: number;
  readonly laid: number;
  readonly bitmap: ImageBitmap;
  /** What the bitmap shows, with its margin. */
  readonly place: Viewport;
  readonly ratio: number;
  /** Rows that are not drawn, since they changed after the layout. */
  readonly hidden: ReadonlySet<string>;
  /** Where symbols are drawn; left out where that is as in the answer before. */
  readonly drawn?: ReadonlyMap<string, Point>;
}

/** Of a survey what is drawn. A way's jacks are one text: lists of names are slow to send. */
export interface SentSurvey {
  readonly runs: readonly (DrawnRun | number)[];
  readonly ways: readonly (Omit<Way, 'jacks'> & { readonly jacks: string })[];
  readonly findings: readonly Pick<Survey['findings'][number], 'at' | 'severity' | 'rule'>[];
}

type DrawnRun = Pick<Run, 'jack' | 'label' | 'crossings' | 'segments'>;

/** Packs what is drawn of a survey; a run that was sent before is named by its place there. */
export function packDrawn(survey: Survey, before: readonly Run[]): SentSurvey {
  const places = new Map(before.map((run, place) => [run, place]));
  return {
    runs: survey.runs.map(
      (run) =>
        places.get(run) ?? {
          jack: run.jack,
          label: run.label,
          crossings: run.crossings,
          // Of its way only risers are drawn from the run itself.
          segments: run.segments.filter(({ riser }) => riser !== null),
        },
    ),
    ways: survey.ways.map((way) => ({ ...way, jacks: way.jacks.join(' ') })),
    findings: survey.findings.map(({ at, severity, rule }) => ({ at, severity, rule })),
  };
}

/** A survey with what is drawn of it, and nothing else. Throws on a run that was not sent before. */
export function unpackDrawn(sent: SentSurvey, before: readonly Run[]): Survey {
  const runs = sent.runs.map((run) => {
    const found = typeof run === 'number' ? before[run] : (run as Run);
    if (!found) throw new Error(`no run ${run} was sent before`);
    return found;
  });
  const ways = sent.ways.map((way) => ({ ...way, jacks: way.jacks.split(' ') }));
  return { runs, ways, findings: sent.findings } as unknown as Survey;
}

/** Keys of rows that were sent. */
export const sentKeys = (rows: readonly SentRow[]): readonly string[] =>
  rows.map(({ table, id }) => refKey({ table, id }));

/** How far a plate reaches over the board's edges, px. */
export const MARGIN = 96;

/** The place of a plate round a board. */
export const plateRound = (view: Viewport): Viewport => ({
  scale: view.scale,
  left: view.left - MARGIN / view.scale,
  top: view.top - MARGIN / view.scale,
  width: view.width + 2 * MARGIN,
  height: view.height + 2 * MARGIN,
});
