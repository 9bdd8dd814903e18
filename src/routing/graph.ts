import type { Point } from '../geometry/point.ts';
import type { Shape } from '../geometry/shape.ts';
import type { Beside } from './beside.ts';
import type { Network } from './field.ts';
import { type Ground, groundOf, type Through } from './ground.ts';
import { type LineSet, linesOf, workOf } from './lines.ts';
import { Media, UNITS } from './medium.ts';
import { networkOf } from './network.ts';
import { crossingsOf, eachOn, type Nodes, type Row, rowOf } from './nodes.ts';
import { MAX_NODES, type Site } from './site.ts';
import { startsOf } from './starts.ts';
import { type Draft, draftStops } from './stops.ts';
import { stripsOf } from './strips.ts';
import { lineTolls } from './tolls.ts';
import type { Track } from './track.ts';
import { boundsOf, type TrackBounds } from './track-bounds.ts';
import { nearTracks, placeOn } from './track-places.ts';
import { elevationOn } from './track-tolls.ts';
import { MAX_SLANTED, slantedWalls, tracksOf } from './tracks.ts';
import { mostCoordinates, type Wishes, wishesOf } from './wishes.ts';

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
  /** Position along its line of the node at each place of `list`. */
  readonly listPosition: readonly [Float64Array, Float64Array];
  /** The side on which it lies there: that of the line across; 0 where there is none. */
  readonly listSide: readonly [Uint8Array, Uint8Array];
  /** The stretch of the line's profile that it lies in there. */
  readonly listStretch: readonly [Int32Array, Int32Array];
  readonly tracks: readonly Track[];
  readonly trackBounds: TrackBounds;
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
  /** What lies beside coordinates of each axis; null where things lie at an angle, so that it may change anywhere. */
  readonly strips: Beside | null;
}

/**
 * The network of a level: its walls, ceilings, keep-outs and pathways as lines to search on.
 *
 * @param through places that ways leave the level at or are made to pass
 */
export function buildGraph(site: Site, through: Through = { risers: [], pins: [] }): Graph {
  const ground = groundOf(site, through);
  const media = new Media(ground);
  const tracks = tracksOf(ground, media);
  const wishes = wishesOf(ground, media, tracks);
  for (const landing of ground.landings)
    for (const start of startsOf(ground, media, mediaBeside(media), landing, null))
      wishes.land(start.x, start.y);
  for (const [x, y] of ground.pins) wishes.land(x, y);
  const plane = planeOf(wishes, media);
  const strips = alongAxes(ground) ? stripsOf(media, wishes, plane.lines) : null;
  return assemble(site, ground, media, tracks, plane, strips);
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

const mediaBeside = (media: Media) => (axis: 0 | 1, c: number) => ({
  below: media.beside(axis, c, 0),
  above: media.beside(axis, c, 1),
});

/** Most coordinates of lines along one axis, and most work that they may be: see `workOf`. */
const MAX_LINES = 4000;
const MAX_WORK = 400_000;
/** Crossings of a plane that is not exact anyhow: then it is at least quick. */
const THIN_NODES = 120_000;
/** The least number of coordinates along an axis that a plane is thinned to. */
const LEAST_LINES = 32;

interface Plane {
  readonly lines: readonly [LineSet, LineSet];
  readonly nodes: Nodes;
}

/** All lines with their crossings, or as many as the bounds allow. */
function planeOf(wishes: Wishes, media: Media): Plane {
  const all = mostCoordinates(wishes);
  const share = Math.min(1, MAX_WORK / workOf(wishes, media));
  let limit = Math.min(MAX_LINES, Math.max(LEAST_LINES, Math.ceil(all * share)));
  for (;;) {
    const lines = [linesOf(wishes, media, 0, limit), linesOf(wishes, media, 1, limit)] as const;
    const whole = lines[0].whole && lines[1].whole;
    const most = limit <= LEAST_LINES ? Infinity : whole ? MAX_NODES : THIN_NODES;
    const nodes = crossingsOf(lines[0], lines[1], most);
    if (nodes) return { lines, nodes };
    limit = Math.max(LEAST_LINES, Math.floor(Math.min(limit, all) / (whole ? 2 : 1.5)));
  }
}

function assemble(
  site: Site,
  ground: Ground,
  media: Media,
  tracks: readonly Track[],
  { lines, nodes }: Plane,
  strips: Graph['strips'],
): Graph {
  const crossings = nodes.count;
  const rows = (): readonly [Row, Row] => [
    rowOf(nodes, 0, lines, crossings),
    rowOf(nodes, 1, lines, crossings),
  ];
  const plain = rows();
  const near = nearTracks(tracks);
  const drafts = tracks.map((track, index) =>
    draftStops(track, index, tracks, ground, { lines, nodes, rows: plain, crossings, near }),
  );
  nodes.trim();
  // Slanted tracks have added nodes of their own to the lines.
  const [h, v] = nodes.count > crossings ? rows() : plain;
  const { stops, stopOf } = stopsOf(media, tracks, drafts, 2 * nodes.count);
  const partial = {
    site,
    ground,
    media,
    lines,
    nodes: nodes.count,
    x: nodes.x,
    y: nodes.y,
    lineOf: [nodes.h, nodes.v] as const,
    from: [h.from, v.from] as const,
    list: [h.list, v.list] as const,
    listPosition: [h.position, v.position] as const,
    listSide: [h.side, v.side] as const,
    tracks,
    trackBounds: boundsOf(tracks),
    stops,
    stopOf,
    exact: lines[0].whole && lines[1].whole && slantedWalls(ground) <= MAX_SLANTED,
    slanted: tracks.some((track) => track.axis === 2),
    bend: site.prices.bend * UNITS,
    strips,
  };
  const tolls = [lineTolls(partial, 0), lineTolls(partial, 1)] as const;
  const listStretch = [tolls[0].stretch, tolls[1].stretch] as const;
  // Added to, not spread into another: so engines see one shape in all graphs.
  return Object.assign(partial, { listStretch, net: networkOf(partial, tolls, drafts, near) });
}

/** The stops of all tracks, numbered on from a state. */
function stopsOf(
  media: Media,
  tracks: readonly Track[],
  drafts: readonly (readonly Draft[])[],
  first: number,
): Pick<Graph, 'stops' | 'stopOf'> {
  const stopOf: { track: number; index: number }[] = [];
  const stops = drafts.map((list, track) =>
    list.map((draft, index): Stop => {
      const state = first + stopOf.length;
      stopOf.push({ track, index });
      return {
        p: draft.p,
        side: draft.side,
        z: elevationOn(media, tracks[track]!, draft.p, draft.side),
        state,
        place: placeOn(tracks[track]!, draft.p),
      };
    }),
  );
  return { stops, stopOf };
}

/** The nodes at a place, ascending. */
export function nodesAt(graph: Graph, x: number, y: number): number[] {
  const found = new Set<number>();
  for (const axis of [0, 1] as const) {
    const row = {
      from: graph.from[axis],
      list: graph.list[axis],
      position: graph.listPosition[axis],
      side: graph.listSide[axis],
    };
    const [c, at] = axis === 0 ? [y, x] : [x, y];
    eachOn(row, graph.lines[axis], c, at, at, (node) => found.add(node));
  }
  return [...found].sort((a, b) => a - b);
}
