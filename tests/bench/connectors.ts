import { AvoidLib } from 'libavoid-js';
import type { Point } from '../../src/geometry/point.ts';
import { onLevel, type Plan } from '../../src/plan/plan.ts';
import { prepare } from '../../src/routing/index.ts';
import { siteOf } from '../../src/routing/plan-site.ts';
import { CLEARANCE, hallPlan } from './plans.ts';
import { bound, plain, type Row, type Section } from './table.ts';
import { ms, once, timed } from './timing.ts';

/** As much of the package `libavoid-js`, a build of libavoid for WebAssembly, as is used here. */
interface Avoid {
  readonly OrthogonalRouting: number;
  readonly ConnType_Orthogonal: number;
  readonly shapeBufferDistance: number;
  readonly idealNudgingDistance: number;
  readonly segmentPenalty: number;
  readonly Point: new (x: number, y: number) => AvoidPoint;
  readonly Rectangle: new (a: AvoidPoint, b: AvoidPoint) => object;
  readonly ShapeRef: new (router: object, polygon: object) => object;
  readonly ConnEnd: new (at: AvoidPoint) => object;
  readonly ConnRef: new (router: object, from: object, to: object) => Connector;
  readonly Router: new (
    flags: number,
  ) => {
    setRoutingParameter(name: number, value: number): void;
    processTransaction(): void;
  };
}

interface AvoidPoint {
  readonly x: number;
  readonly y: number;
}

interface Connector {
  setRoutingType(type: number): void;
  displayRoute(): { size(): number; get_ps(index: number): AvoidPoint };
}

/** What one more segment is worth to both, mm. */
const BEND_PRICE = 10;

interface Scene {
  readonly plan: Plan;
  readonly site: ReturnType<typeof siteOf>;
  readonly outlets: readonly { readonly at: Point }[];
}

function sceneOf(keepouts: number, jacks: number): Scene {
  const plan = hallPlan({ keepouts, walls: 0, jacks });
  const level = [...plan.tables.levels.values()][0]!;
  const site = siteOf(plan, level);
  const prices = { ...site.prices, bend: BEND_PRICE };
  return { plan, site: { ...site, prices }, outlets: onLevel(plan, 'outlets', level.id) };
}

/** Everything from nothing: the network, the search and the route of each jack. The answer: length across. */
function ours({ plan, site }: Scene): number {
  const network = prepare(site);
  let across = 0;
  for (const outlet of plan.tables.outlets.values()) {
    const route = network.route(outlet, site.closets[0]!.id);
    if (!route.ok) throw new Error(`no route from ${outlet.id}`);
    across += route.across;
  }
  return across;
}

/** The same by libavoid, which keeps as far off what stands in the way. */
function theirs(avoid: Avoid, { site, outlets }: Scene): number {
  const router = new avoid.Router(avoid.OrthogonalRouting);
  router.setRoutingParameter(avoid.shapeBufferDistance, CLEARANCE);
  router.setRoutingParameter(avoid.segmentPenalty, BEND_PRICE);
  // Otherwise it moves connectors apart afterwards, which makes them longer.
  router.setRoutingParameter(avoid.idealNudgingDistance, 0);
  const point = ([x, y]: Point): AvoidPoint => new avoid.Point(x, y);
  for (const { outline } of site.keepouts)
    new avoid.ShapeRef(router, new avoid.Rectangle(point(outline[0]!), point(outline[2]!)));
  const home = site.closets[0]!.at;
  const connectors = outlets.map(({ at }) => {
    const ends = [new avoid.ConnEnd(point(at)), new avoid.ConnEnd(point(home))] as const;
    const connector = new avoid.ConnRef(router, ...ends);
    connector.setRoutingType(avoid.ConnType_Orthogonal);
    return connector;
  });
  router.processTransaction();
  return connectors.reduce((sum, connector) => sum + lengthOf(connector), 0);
}

function lengthOf(connector: Connector): number {
  const route = connector.displayRoute();
  let sum = 0;
  for (let i = 1; i < route.size(); i++) {
    const [a, b] = [route.get_ps(i - 1), route.get_ps(i)].map(({ x, y }) => [x, y] as const);
    sum += Math.abs(a![0] - b![0]) + Math.abs(a![1] - b![1]);
  }
  return sum;
}

/** All routes of a hall with 100 keep-outs, from nothing, against orthogonal connectors. */
export async function connectors(): Promise<Section> {
  await AvoidLib.load();
  const avoid = AvoidLib.getInstance() as unknown as Avoid;
  const rows: Row[] = [];
  for (const [keepouts, jacks] of [
    [100, 20],
    [100, 200],
  ] as const) {
    const scene = sceneOf(keepouts, jacks);
    const [mine, other] = [ours(scene), theirs(avoid, scene)];
    const { cold } = await timed({ cold: () => ours(scene) });
    const peer = await once(() => theirs(avoid, scene));
    const what = `${keepouts} keep-outs, ${jacks} jacks`;
    const note = `${ms(peer).toFixed(0)} ms to ${ms(cold).toFixed(1)} ms`;
    const times = ms(peer) / ms(cold);
    rows.push(
      jacks === 200
        ? bound(`libavoid, ${what}`, times, 'at least', 100, 'times', note)
        : plain(`libavoid, ${what}`, `${times.toFixed(0)} times`, note),
      bound(
        '– our length of theirs',
        mine / other,
        'at most',
        1,
        'times',
        `${(mine / 1000).toFixed(1)} m to ${(other / 1000).toFixed(1)} m`,
      ),
    );
  }
  return { name: 'connectors', title: 'Orthogonal connectors', rows };
}
