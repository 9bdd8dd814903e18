import type { Point } from '../geometry/point.ts';
import type { Shape } from '../geometry/shape.ts';
import type { Beside } from './beside.ts';
import { type Ground, groundOf, type Through } from './ground.ts';
import { type LineSet, linesOf, lowerBound, type Wishes, wishesOf } from './lines.ts';
import { Media, UNITS } from './medium.ts';
import { networkOf } from './network.ts';
import { countCrossings, eachCrossing, Nodes } from './nodes.ts';
import type { Network } from './search.ts';
import { MAX_NODES, type Site } from './site.ts';
import { startsOf } from './starts.ts';
import { draftStops } from './stops.ts';
import { elevationOn, placeOn, type Track, tracksOf } from './tracks.ts';

/** A place on a track where a cable may join, leave or pass on to another track. */
export interface Stop {
  readonly p: number;
  readonly side: 0 | 1;
  readonly z: number;
  readonly state: number;
  readonly place: Point;
}

/**
 * The ceiling plane of a site as a network.
 *
 * Node n is a crossing of two lines and has two states: 2n travels along x, 2n + 1 along y; turning costs a bend.
 * The stops of tracks follow after all nodes, one state each.
 */
export interface Graph {
  readonly site: Site;
  readonly ground: Ground;
  readonly media: Media;
  /** Lines along x, and lines along y. */
  readonly lines: readonly [LineSet, LineSet];
  readonly nodes: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Line through each node along x and along y; -1 where a track meets only one line. */
  readonly lineOf: readonly [Int32Array, Int32Array];
  /** Nodes of each line in order: `list` from `from[line]` to `from[line + 1]`. */
  readonly from: readonly [Int32Array, Int32Array];
  readonly list: readonly [Int32Array, Int32Array];
  readonly tracks: readonly Track[];
  readonly stops: readonly (readonly Stop[])[];
  /** Track and index of the stop behind each state beyond 2 * nodes. */
  readonly stopOf: readonly { readonly track: number; readonly index: number }[];
  readonly net: Network;
  /** False when the site was too large for all its lines: routes hold, but may not be the cheapest. */
  readonly exact: boolean;
  /** Whether some track lies off the axes. */
  readonly slanted: boolean;
  /** Price of a bend, in units. */
  readonly bend: number;
  /**
   * Coordinates along each axis at which anything begins or ends, and some more; null where things lie at an angle, so
   * that they may anywhere.
   */
  readonly edges: readonly [ReadonlyMap<number, unknown>, ReadonlyMap<number, unknown>] | null;
}

/**
 * The network of a level: its walls, ceilings, keep-outs and pathways as lines to search on.
 *
 * @param through places, beside the closets, that ways end at or are made to pass
 */
export function buildGraph(site: Site, through: Through = { risers: [], pins: [] }): Graph {
  const ground = groundOf(site, through);
  const media = new Media(ground);
  const tracks = tracksOf(ground, media);
  const wishes = wishesOf(ground, media, tracks);
  for (const landing of ground.landings)
    for (const start of startsOf(ground, media, mediaBeside(media), landing, null))
      wishes.cross(start.x, start.y);
  for (const [x, y] of ground.pins) wishes.cross(x, y);
  const edges = alongAxes(ground) ? wishes.axes : null;
  return assemble(site, ground, media, tracks, chosenLines(wishes, media), edges);
}

/** Whether no edge of anything lies at an angle. */
const alongAxes = ({ zones, bodies, barred }: Ground): boolean =>
  [zones, bodies, barred].every((areas) => areas.every(({ shape }) => isSquare(shape)));

function isSquare({ box, flat }: Shape): boolean {
  if (box) return true;
  for (let i = 0, j = flat.length - 2; i < flat.length; j = i, i += 2)
    if (flat[i] !== flat[j] && flat[i + 1] !== flat[j + 1]) return false;
  return true;
}

const mediaBeside =
  (media: Media): Beside =>
  (axis, c) => [media.beside(axis, c, 0), media.beside(axis, c, 1)];

/** Most coordinates of lines along one axis. */
const MAX_LINES = 4000;

/** All lines, or as many as the bounds allow. */
function chosenLines(wishes: Wishes, media: Media): readonly [LineSet, LineSet] {
  for (let limit = MAX_LINES; ; limit /= 2) {
    const lines = [linesOf(wishes, media, 0, limit), linesOf(wishes, media, 1, limit)] as const;
    if (limit < 64 || countCrossings(lines[0], lines[1]) <= MAX_NODES) return lines;
  }
}

function assemble(
  site: Site,
  ground: Ground,
  media: Media,
  tracks: readonly Track[],
  lines: readonly [LineSet, LineSet],
  edges: Graph['edges'],
): Graph {
  const nodes = new Nodes();
  eachCrossing(lines[0], lines[1], (i, j) => {
    nodes.add(lines[1].c[j]!, lines[0].c[i]!, i, j);
    return true;
  });
  const crossings = nodes.count;
  const drafts = tracks.map((track, index) =>
    draftStops(track, index, tracks, ground, lines, nodes),
  );
  nodes.trim();
  const { count } = nodes;
  const h = along(nodes.h, nodes.x, lines[0], crossings);
  const v = along(nodes.v, nodes.y, lines[1], crossings);
  const stopOf: { track: number; index: number }[] = [];
  const stops = drafts.map((list, track) =>
    list.map((draft, index): Stop => {
      stopOf.push({ track, index });
      return {
        p: draft.p,
        side: draft.side,
        z: elevationOn(media, tracks[track]!, draft.p, draft.side),
        state: 2 * count + stopOf.length - 1,
        place: placeOn(tracks[track]!, draft.p),
      };
    }),
  );
  const partial = {
    site,
    ground,
    media,
    lines,
    nodes: count,
    x: nodes.x,
    y: nodes.y,
    lineOf: [nodes.h, nodes.v] as const,
    from: [h.from, v.from] as const,
    list: [h.list, v.list] as const,
    tracks,
    stops,
    stopOf,
    exact: lines[0].whole && lines[1].whole,
    slanted: tracks.some((track) => track.axis === 2),
    bend: site.prices.bend * UNITS,
    edges,
  };
  return { ...partial, net: networkOf(partial, drafts) };
}

/** Nodes of each line, in order along it. */
function along(
  line: Int32Array,
  position: Float64Array,
  lines: LineSet,
  crossings: number,
): { from: Int32Array; list: Int32Array } {
  const from = new Int32Array(lines.count + 1);
  for (let node = 0; node < line.length; node++) if (line[node]! >= 0) from[line[node]! + 1]!++;
  for (let l = 0; l < lines.count; l++) from[l + 1]! += from[l]!;
  const fill = from.slice();
  const list = new Int32Array(from[lines.count]!);
  const mixed = new Set<number>();
  for (let node = 0; node < line.length; node++) {
    const l = line[node]!;
    if (l < 0) continue;
    list[fill[l]!++] = node;
    if (node >= crossings) mixed.add(l);
  }
  for (const l of mixed) {
    const part = Array.from(list.subarray(from[l]!, from[l + 1]!));
    // Crossings are in order already; a stable sort keeps the sides of one coordinate as they are.
    part.sort((a, b) => position[a]! - position[b]!);
    list.set(part, from[l]!);
  }
  return { from, list };
}

/** The nodes at a place. */
export function nodesAt(graph: Graph, x: number, y: number): number[] {
  const found = new Set<number>();
  for (const axis of [0, 1] as const) {
    const lines = graph.lines[axis];
    const [across, along] = axis === 0 ? [y, x] : [x, y];
    const position = axis === 0 ? graph.x : graph.y;
    for (let i = lowerBound(lines.c, across); i < lines.count && lines.c[i] === across; i++)
      for (let k = graph.from[axis][i]!; k < graph.from[axis][i + 1]!; k++) {
        const node = graph.list[axis][k]!;
        if (position[node] === along) found.add(node);
      }
  }
  return [...found].sort((a, b) => a - b);
}
