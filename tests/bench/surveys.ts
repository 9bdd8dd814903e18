import { kinds } from '../../src/kinds/index.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { attach } from '../../src/routing/attach.ts';
import type { Toward } from '../../src/routing/best.ts';
import { courseTo, towardOn } from '../../src/routing/course.ts';
import { buildGraph, type Graph } from '../../src/routing/graph.ts';
import { createRouter } from '../../src/routing/index.ts';
import { siteOf } from '../../src/routing/plan-site.ts';
import { stackOf } from '../../src/routing/stack.ts';
import { createSurveyor } from '../../src/survey/survey.ts';
import { officePlan } from './office.ts';
import { dragged, hallPlan, samplePlan } from './plans.ts';
import { bound, inMs, type Row, type Section } from './table.ts';
import { type Effort, ms, ratio, timed } from './timing.ts';
import { surveyByWorker } from './worker.ts';

/** One frame of a screen that is drawn 60 times a second, ms. */
const FRAME = 16.7;

export const office = officePlan({ walls: 400, jacks: 500 });

export function graphOf(plan: Plan): Graph {
  return buildGraph(siteOf(plan, [...plan.tables.levels.values()][0]!));
}

/** The steps of routing the office and one that is larger: the network, the search, and the look-up of each outlet. */
export async function steps(): Promise<Section> {
  const large = officePlan({ walls: 2000, jacks: 2000 });
  const rows = [
    // A build is many functions that are called once each, which engines compile late.
    ...(await stepsOf(office, { warmUp: 1000 })),
    ...(await stepsOf(large, { time: 400, rounds: 3 })),
  ];
  return { name: 'steps', title: 'Steps of routing: offices with walls and jacks', rows };
}

async function stepsOf(plan: Plan, effort: Effort): Promise<Row[]> {
  const site = siteOf(plan, [...plan.tables.levels.values()][0]!);
  const graph = graphOf(plan);
  const closet = site.closets[0]!;
  const stack = stackOf([graph], []);
  const course = courseTo(stack, 0, closet.at, closet.height);
  const toward: Toward = towardOn(stack, course, 0);
  let moved = courseTo(stack, 0, closet.at, closet.height);
  const walls = new Map<string | null, number>(site.walls.map(({ id }, index) => [id, index]));
  const places = [...plan.tables.outlets.values()].map((outlet) => ({
    at: graph.ground.frame.into(outlet.at),
    height: outlet.height,
    wall: walls.get(outlet.wall) ?? null,
    floor: false,
  }));
  const time = await timed(
    {
      build: () => buildGraph(site),
      search: () => {
        moved = courseTo(stack, 0, closet.at, closet.height, moved);
      },
      lookUp: () => {
        for (const place of places) attach(graph, toward, place);
      },
    },
    effort,
  );
  const count = (number: number): string => number.toLocaleString('en');
  const one = `${((1000 * ms(time.lookUp)) / places.length).toFixed(0)} µs each`;
  return [
    inMs(
      `${count(site.walls.length)} walls: build the network`,
      ms(time.build),
      `${count(graph.nodes)} nodes, ${count(graph.net.to.length)} arcs`,
    ),
    inMs('– search from the closet to all', ms(time.search)),
    inMs(`– look up ${count(places.length)} outlets`, ms(time.lookUp), one),
    bound('– build, of a search', ratio(time.build, time.search), 'at most', 2, 'times'),
    bound(
      '– look-ups in the time of a search',
      ratio(time.search, time.lookUp) * places.length,
      'at least',
      200,
      '',
    ),
  ];
}

/** Whole surveys, and what a drag takes. */
export async function surveys(): Promise<Section> {
  const rows: Row[] = [];
  const sample = samplePlan();
  const { fresh } = await timed({ fresh: () => createSurveyor(kinds)(sample) });
  rows.push(inMs('sample restaurant: survey from nothing', ms(fresh)));
  const whole = await timed(
    {
      routes: () => createRouter().homeRuns(office),
      survey: () => createSurveyor(kinds)(office),
    },
    { rounds: 3 },
  );
  rows.push(
    inMs('office: all 500 runs from nothing', ms(whole.routes)),
    inMs('office: survey from nothing', ms(whole.survey)),
  );
  const outlet = await byWorker(office, 'outlets');
  rows.push(
    bound(
      'office: an outlet dragged, until the answer is here',
      outlet,
      'at most',
      FRAME,
      'ms',
      'a worker and its messages included',
    ),
  );
  for (const count of [200, 300]) {
    const hall = hallPlan({ keepouts: count / 2, walls: count / 2, jacks: 40 });
    const rooms = officePlan({ walls: count, jacks: 40 });
    const note = 'search, 40 runs';
    rows.push(
      frame(`hall of ${count} obstacles: the closet dragged`, await rerouted(hall), note),
      frame(`office of ${count} walls: the closet dragged`, await rerouted(rooms), note),
    );
  }
  const hall = hallPlan({ keepouts: 150, walls: 150, jacks: 40 });
  rows.push(
    inMs(
      'hall of 300 obstacles: the closet dragged, until the answer is here',
      await byWorker(hall, 'closets'),
      'a worker and its messages included',
    ),
  );
  return { name: 'surveys', title: 'Surveys and drags', rows };
}

const frame = (what: string, time: number, note: string): Row =>
  bound(what, time, 'at most', FRAME, 'ms', note);

/** All runs again after each step of a drag of the closet, by a router that knows the plan before. */
async function rerouted(plan: Plan): Promise<number> {
  const router = createRouter();
  const next = dragged(plan, 'closets');
  const { step } = await timed({ step: () => router.homeRuns(next()) });
  return ms(step);
}

async function byWorker(plan: Plan, table: 'outlets' | 'closets'): Promise<number> {
  const { survey, close } = surveyByWorker();
  const next = dragged(plan, table);
  await survey(next());
  // A drag goes on for seconds, while all that it takes is compiled within the first.
  const { step } = await timed({ step: () => survey(next()) }, { warmUp: 1000 });
  close();
  return ms(step);
}
