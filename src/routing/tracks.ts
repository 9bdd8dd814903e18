import type { Point } from '../geometry/point.ts';
import { finderOf } from './finder.ts';
import type { Ground } from './ground.ts';
import { type Media, UNITS } from './medium.ts';
import { mediumAt, type Profile, stretchAt } from './profile.ts';
import { JOIN_REACH } from './site.ts';
import { type Toll, toll } from './toll.ts';

/** A face of a slanted wall is followed this far outside it, so that it never counts as inside. */
const FACE_GAP = 0.5;
/** Most places, where slanted things meet others, that lines are drawn through. */
const MAX_DOORS = 4000;

/**
 * A straight stretch that is not a line of the plane: one piece of a pathway, or the long face of a wall off the frame.
 *
 * Positions along it are x for axis 0, y for axis 1, and mm from its start for axis 2.
 */
export interface Track {
  /** Index of the pathway, or -1 for a face. */
  readonly line: number;
  readonly segment: number;
  readonly axis: 0 | 1 | 2;
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** Position of the start and of the end. */
  readonly pa: number;
  readonly pb: number;
  readonly anywhere: boolean;
  /** Whether its start or end can be joined although the rest cannot. */
  readonly openA: boolean;
  readonly openB: boolean;
  /** Whether it runs under the slab, and comes to a floor box at its start or end. */
  readonly slab: boolean;
  readonly boxA: boolean;
  readonly boxB: boolean;
  /** Stretches of the plane that it runs in. */
  readonly profile: Profile;
  /** A second view from the other side, where the track runs on a border. */
  readonly other: Profile;
  readonly elevation: number | null;
  /** Places that lines should run through. */
  readonly doors: Point[];
}

/** Most walls at an angle whose faces can be followed; beyond it they are only passed. */
export const MAX_SLANTED = 300;

/** How many walls of a ground stand at an angle to its frame. */
export const slantedWalls = ({ bodies }: Ground): number =>
  bodies.filter((body) => body.axis === 2).length;

const NO_BOXES = [false, false] as const;

/** The straight pieces of all pathways, with what lies along them and the places where they can be joined. */
export function tracksOf(ground: Ground, media: Media): Track[] {
  const tracks: Track[] = [];
  ground.lines.forEach((line, index) => {
    const last = line.points.length - 2;
    const boxes = (line.pathway.kind === 'under-slab' && line.pathway.floorBoxes) || NO_BOXES;
    for (let i = 0; i <= last; i++) {
      const [a, b] = [line.points[i]!, line.points[i + 1]!];
      const axis = a[1] === b[1] ? 0 : a[0] === b[0] ? 1 : 2;
      const doors: Point[] = [];
      if (line.anywhere || i === 0) doors.push(a);
      if (line.anywhere || i === last) doors.push(b);
      const about = {
        line: index,
        segment: i,
        anywhere: line.anywhere,
        openA: line.anywhere || i === 0,
        openB: line.anywhere || i === last,
        slab: line.pathway.kind === 'under-slab',
        boxA: i === 0 && boxes[0],
        boxB: i === last && boxes[1],
        elevation: line.elevation,
        doors,
      };
      tracks.push(trackBetween(media, a, b, axis, false, about));
    }
  });
  if (slantedWalls(ground) <= MAX_SLANTED)
    ground.bodies.forEach((body, index) => {
      if (body.axis === 2) tracks.push(...facesOf(media, body.shape.flat, index));
    });
  for (const landing of ground.landings) landingDoors(landing, tracks);
  slantedDoors(tracks);
  return tracks;
}

/** What a track is but for where it lies. */
type About = Omit<Track, 'axis' | 'ax' | 'ay' | 'bx' | 'by' | 'pa' | 'pb' | 'profile' | 'other'>;

function trackBetween(
  media: Media,
  [ax, ay]: Point,
  [bx, by]: Point,
  axis: 0 | 1 | 2,
  face: boolean,
  about: About,
): Track {
  const profile =
    axis === 2 ? media.along(ax, ay, bx, by, face) : media.beside(axis, axis === 0 ? ay : ax, 0);
  const other = axis === 2 ? profile : media.beside(axis, axis === 0 ? ay : ax, 1);
  const pa = axis === 0 ? ax : axis === 1 ? ay : 0;
  const pb = axis === 0 ? bx : axis === 1 ? by : Math.hypot(bx - ax, by - ay);
  // One by one: objects that are spread first and then added to have each a shape of their own to engines.
  return {
    line: about.line,
    segment: about.segment,
    axis,
    ax,
    ay,
    bx,
    by,
    pa,
    pb,
    anywhere: about.anywhere,
    openA: about.openA,
    openB: about.openB,
    slab: about.slab,
    boxA: about.boxA,
    boxB: about.boxB,
    profile,
    other,
    elevation: about.elevation,
    doors: about.doors,
  };
}

/** The two long faces of a slanted wall, a hair outside it. */
function facesOf(media: Media, flat: Float64Array, body: number): Track[] {
  const corner = (i: number): Point => [flat[2 * i]!, flat[2 * i + 1]!];
  const [p0, p1, p2, p3] = [corner(0), corner(1), corner(2), corner(3)];
  const width = Math.hypot(p3[0] - p0[0], p3[1] - p0[1]);
  const out: Point = [((p0[0] - p3[0]) / width) * FACE_GAP, ((p0[1] - p3[1]) / width) * FACE_GAP];
  const moved = (p: Point, s: number): Point => [p[0] + s * out[0], p[1] + s * out[1]];
  return (
    [
      [moved(p0, 1), moved(p1, 1)],
      [moved(p3, -1), moved(p2, -1)],
    ] as const
  ).map(([a, b], i) =>
    trackBetween(media, a, b, 2, true, {
      line: -1,
      segment: body * 2 + i,
      anywhere: true,
      openA: true,
      openB: true,
      slab: false,
      boxA: false,
      boxB: false,
      elevation: null,
      doors: [a, b],
    }),
  );
}

/** Where a riser stands beside a pathway: the cable goes from one to the other with no way by the plane. */
function landingDoors(at: Point, tracks: Track[]): void {
  for (const track of tracks) {
    if (track.line < 0 || !track.anywhere) continue;
    const p = nearestOn(track, at);
    const [x, y] = placeOn(track, p);
    if (Math.abs(x - at[0]) + Math.abs(y - at[1]) <= JOIN_REACH) track.doors.push([x, y]);
  }
}

/** Numbers of the tracks whose bounds come near those of a track, ascending. */
export type NearTracks = (track: Track) => readonly number[];

/** An index of tracks by their bounds. */
export function nearTracks(tracks: readonly Track[]): NearTracks {
  const box = (t: Track) => ({
    x0: Math.min(t.ax, t.bx) - 1,
    y0: Math.min(t.ay, t.by) - 1,
    x1: Math.max(t.ax, t.bx) + 1,
    y1: Math.max(t.ay, t.by) + 1,
  });
  const finder = finderOf(tracks.map((t) => ({ shape: box(t) })));
  return (track) => {
    const { x0, y0, x1, y1 } = box(track);
    return finder.near(x0, y0, x1, y1);
  };
}

/** Where slanted tracks meet faces, borders and one another. */
function slantedDoors(tracks: Track[]): void {
  const near = nearTracks(tracks);
  let left = MAX_DOORS;
  const slanted = tracks.filter((t) => t.axis === 2);
  for (const track of slanted) {
    const { row, first, end } = track.profile;
    for (let k = first; k < end; k++) {
      const p = row.starts[k]!;
      if (!(p > track.pa && p < track.pb) || left-- <= 0) continue;
      track.doors.push(placeOn(track, p));
    }
    for (const index of near(track)) {
      const other = tracks[index]!;
      if (other === track || left <= 0) continue;
      const meet = meeting(track, other);
      if (!meet) continue;
      left--;
      track.doors.push(meet);
    }
  }
}

/** The place where two tracks cross or touch, unless they run side by side. */
export function meeting(s: Track, t: Track): Point | null {
  const sx = s.bx - s.ax;
  const sy = s.by - s.ay;
  const tx = t.bx - t.ax;
  const ty = t.by - t.ay;
  const turn = sx * ty - sy * tx;
  if (turn === 0) return null;
  const qx = t.ax - s.ax;
  const qy = t.ay - s.ay;
  const k = (qx * ty - qy * tx) / turn;
  const m = (qx * sy - qy * sx) / turn;
  const slip = 1e-9;
  if (k < -slip || k > 1 + slip || m < -slip || m > 1 + slip) return null;
  if (s.axis === 0 && t.axis === 1) return [t.ax, s.ay];
  if (s.axis === 1 && t.axis === 0) return [s.ax, t.ay];
  if (m < slip) return [t.ax, t.ay];
  if (m > 1 - slip) return [t.bx, t.by];
  if (k < slip) return [s.ax, s.ay];
  if (k > 1 - slip) return [s.bx, s.by];
  return [s.ax + k * sx, s.ay + k * sy];
}

/** The place at a position of a track. */
export function placeOn(track: Track, p: number): Point {
  if (track.axis === 0) return [p, track.ay];
  if (track.axis === 1) return [track.ax, p];
  if (p <= track.pa) return [track.ax, track.ay];
  if (p >= track.pb) return [track.bx, track.by];
  const k = p / track.pb;
  return [track.ax + k * (track.bx - track.ax), track.ay + k * (track.by - track.ay)];
}

/** The position on a track nearest to a place. */
export function nearestOn(track: Track, [x, y]: Point): number {
  const [lo, hi] = [Math.min(track.pa, track.pb), Math.max(track.pa, track.pb)];
  const free =
    track.axis === 0
      ? x
      : track.axis === 1
        ? y
        : ((x - track.ax) * (track.bx - track.ax) + (y - track.ay) * (track.by - track.ay)) /
          track.pb;
  return Math.min(hi, Math.max(lo, free));
}

/** Elevation of a cable on a track. On a border between two zones, the lower of the two. */
export function elevationOn(media: Media, track: Track, p: number, side: 0 | 1): number {
  if (track.elevation !== null) return track.elevation;
  const one = media.list[mediumAt(track.profile, p, side)]!.z;
  const two = media.list[mediumAt(track.other, p, side)]!.z;
  return Math.min(one, two);
}

/** Cost and length along a track from position a to b >= a; on a pathway no wall costs anything. */
export function trackToll(
  media: Media,
  track: Track,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
  factor: number,
  out: Toll,
): void {
  if (track.line < 0) {
    toll(media, track.profile, a, sideA, b, sideB, out);
    return;
  }
  const steps = track.elevation === null ? stepsAlong(media, track, a, sideA, b, sideB) : 0;
  out.cost = Math.round((b - a) * 2 * factor) + steps * UNITS;
  out.length = b - a + steps;
}

/** Sum of the steps of a track that follows the ceiling, from a to b. */
function stepsAlong(
  media: Media,
  track: Track,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
): number {
  const { profile, other } = track;
  const changes = stretchAt(profile, a, sideA) !== stretchAt(profile, b, sideB);
  if (!changes && (other === profile || stretchAt(other, a, sideA) === stretchAt(other, b, sideB)))
    return 0;
  let z = elevationOn(media, track, a, sideA);
  let steps = 0;
  for (const p of bordersOf(track, a, sideA, b, sideB)) {
    const next = elevationOn(media, track, p, 1);
    steps += Math.abs(next - z);
    z = next;
  }
  return steps + Math.abs(elevationOn(media, track, b, sideB) - z);
}

/** Positions between a and b where what the track runs in changes, ascending. */
export function bordersOf(
  track: Track,
  a: number,
  sideA: 0 | 1,
  b: number,
  sideB: 0 | 1,
): number[] {
  const found: number[] = [];
  for (const profile of [track.profile, track.other]) {
    const last = stretchAt(profile, b, sideB);
    for (let k = stretchAt(profile, a, sideA) + 1; k <= last; k++)
      found.push(profile.row.starts[k]!);
  }
  return [...new Set(found)].sort((p, q) => p - q);
}

/** Positions of a pathway's track that a terminal may join from its own height. */
export function reachOf(track: Track, at: Point, floor: boolean): { p: number; lead: number }[] {
  if (track.line < 0) return [];
  const candidates: number[] = [];
  if (track.anywhere) candidates.push(nearestOn(track, at));
  else {
    if (track.openA && (floor || !track.boxA)) candidates.push(track.pa);
    if (track.openB && (floor || !track.boxB)) candidates.push(track.pb);
  }
  if (floor && track.anywhere) return [];
  return candidates.flatMap((p) => {
    const [x, y] = placeOn(track, p);
    const lead = Math.abs(x - at[0]) + Math.abs(y - at[1]);
    return lead <= JOIN_REACH ? [{ p, lead }] : [];
  });
}
