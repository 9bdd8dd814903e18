import { withBridges } from './gaps.ts';
import { distance } from './nearest.ts';
import type { Point } from './point.ts';
import { doubleArea, insidePolygon } from './polygon.ts';
import { type Barrier, degrees, type Edge, makeNet, type Net, ONE } from './wall-net.ts';

/** The outline along the middle lines of what closes round a place, or where it is open. */
export type Enclosure =
  | {
      readonly closed: true;
      /** Clockwise as drawn, whole mm, no three corners in a line. */
      readonly outline: readonly Point[];
      /** Gaps that were passed over as doorways, from body to body. */
      readonly bridged: readonly Gap[];
    }
  | {
      readonly closed: false;
      /** Gaps that have to be closed and no others, the widest first; none where nothing would close. */
      readonly leaks: readonly Gap[];
      /** What closes round the place once they are; nothing where nothing would. */
      readonly outline: readonly Point[];
    };

/** An opening between walls, from body to body. */
type Gap = readonly [Point, Point];

/** A gap up to this counts as a doorway: a door leaf of 3 ft with its frame, and some (common practice, no source). */
export const DOORWAY = 1200;
/** A gap up to this may be the doorway of a double door or a passage, where somebody says so (common practice, no source). */
export const PASSAGE = 2400;
/** Gaps that are looked for to say where it leaks, one after the other. */
const WIDER = [PASSAGE, 4800, 9600, 20_000];

/**
 * The room round a place: the face of the walls' middle lines in which it lies. Ends that stop at a wall's face or
 * near another end are joined; gaps up to a doorway are passed over, as they are from body to body.
 */
export function enclosure(barriers: readonly Barrier[], at: Point): Enclosure {
  const net = makeNet(barriers);
  const found = faceAt(withBridges(net, DOORWAY), at);
  if (found) return { closed: true, outline: found.outline, bridged: found.gaps };
  for (const wider of WIDER) {
    const bridged = withBridges(net, wider);
    const open = faceAt(bridged, at);
    if (open) return { closed: false, ...needed(bridged, open, at) };
  }
  return { closed: false, leaks: [], outline: [] };
}

const wideness = ([p, q]: Gap): number => distance(p, q);

/**
 * The gaps without which nothing closes round a place. Bridges of any width lie across the openings of everything that
 * a room opens into, too: of those round it, the widest first, each goes that it closes without.
 */
function needed({ nodes, edges }: Net, open: Face, at: Point): Pick<Opened, 'leaks' | 'outline'> {
  const wide = (gap: Gap): boolean => wideness(gap) > DOORWAY;
  const among = (gaps: readonly Gap[], gap: Gap): boolean =>
    gaps.map(String).includes(String(placed(gap)));
  let face = open;
  let kept = edges.filter(({ gap }) => !gap || !wide(gap) || among(open.gaps, gap));
  const widestFirst = open.gaps.filter(wide).sort((p, q) => wideness(q) - wideness(p));
  for (const one of widestFirst) {
    const without = kept.filter(({ gap }) => !gap || !among([one], gap));
    const still = faceAt({ nodes, edges: without }, at);
    if (still) [kept, face] = [without, still];
  }
  return { leaks: widestFirst.filter((gap) => among(face.gaps, gap)), outline: face.outline };
}

type Opened = Extract<Enclosure, { closed: false }>;

interface Face {
  readonly outline: readonly Point[];
  readonly gaps: readonly Gap[];
}

/** The smallest face of a net round a place; null where none closes round it. */
function faceAt(net: Net, at: Point): Face | null {
  const edges = withoutSpurs(net.edges);
  const leaving = new Map<number, { readonly to: number; readonly gap: Edge['gap'] }[]>();
  for (const { from, to, gap } of edges) {
    leaving.set(from, [...(leaving.get(from) ?? []), { to, gap }]);
    leaving.set(to, [...(leaving.get(to) ?? []), { to: from, gap }]);
  }
  const bearing = (from: number, to: number): number => {
    const [p, q] = [net.nodes[from]!, net.nodes[to]!];
    return Math.atan2(q[1] - p[1], q[0] - p[0]);
  };
  for (const [from, list] of leaving)
    list.sort((p, q) => bearing(from, p.to) - bearing(from, q.to));
  const seen = new Set<string>();
  let best: Face | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [from, list] of leaving)
    for (const { to } of list) {
      if (seen.has(`${from}>${to}`)) continue;
      const loop = walk(leaving, from, to, seen);
      const outline = loop.map((i) => net.nodes[i]!);
      const area = doubleArea(outline);
      // Faces run clockwise as drawn; what surrounds a whole island runs the other way.
      if (area <= 0 || area >= least || !insidePolygon(outline, at[0], at[1])) continue;
      least = area;
      best = { outline: straightened(outline), gaps: gapsOf(loop, leaving) };
    }
  return best;
}

type Leaving = ReadonlyMap<number, readonly { readonly to: number; readonly gap: Edge['gap'] }[]>;

/** Round a face: at each node on to the next way to the left of where it came from. */
function walk(leaving: Leaving, from: number, to: number, seen: Set<string>): number[] {
  const loop: number[] = [];
  let [a, b] = [from, to];
  while (!seen.has(`${a}>${b}`)) {
    seen.add(`${a}>${b}`);
    loop.push(a);
    const list = leaving.get(b)!;
    const back = list.findIndex((way) => way.to === a);
    const next = list[(back + list.length - 1) % list.length]!.to;
    [a, b] = [b, next];
  }
  return loop;
}

function gapsOf(loop: readonly number[], leaving: Leaving): Gap[] {
  return loop.flatMap((from, i): Gap[] => {
    const to = loop[(i + 1) % loop.length]!;
    const gap = leaving.get(from)!.find((way) => way.to === to)?.gap;
    return gap ? [placed(gap)] : [];
  });
}

/** Edges without those that lead nowhere. */
function withoutSpurs(edges: readonly Edge[]): readonly Edge[] {
  let rest = edges;
  for (;;) {
    const count = degrees(rest);
    const kept = rest.filter(({ from, to }) => count.get(from)! > 1 && count.get(to)! > 1);
    if (kept.length === rest.length) return kept;
    rest = kept;
  }
}

const rounded = (p: Point): Point => [Math.round(p[0]) + 0, Math.round(p[1]) + 0];
const placed = ([p, q]: Gap): Gap => [rounded(p), rounded(q)];

/** Whole corners without those that lie in a line with their neighbours, to the mm. */
function straightened(outline: readonly Point[]): Point[] {
  let corners = outline.map(rounded);
  for (;;) {
    const kept = corners.filter((p, i) => {
      const a = corners[(i + corners.length - 1) % corners.length]!;
      const b = corners[(i + 1) % corners.length]!;
      const beside = Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
      return beside > ONE * (distance(a, b) || 1) * 0.5;
    });
    if (kept.length === corners.length || kept.length < 3) return corners;
    corners = kept;
  }
}
