import type { Point } from '../geometry/point.ts';
import type { Ground } from './ground.ts';
import type { Media } from './medium.ts';
import { JOIN_REACH } from './site.ts';
import type { Track } from './track.ts';
import { meeting, nearestOn, nearTracks, placeOn } from './track-places.ts';

/** A face of a slanted wall is followed this far outside it, so that it never counts as inside. */
const FACE_GAP = 0.5;
/** Most places, where slanted things meet others, that lines are drawn through. */
const MAX_DOORS = 4000;

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
