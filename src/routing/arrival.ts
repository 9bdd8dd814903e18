import type { Point } from '../geometry/point.ts';
import { tryAll } from './attach.ts';
import { Bound, type LineMeeting, type Taker, type TrackMeeting } from './best.ts';
import type { Seed } from './field.ts';
import type { Graph } from './graph.ts';
import type { Leg } from './leg.ts';
import type { Ray } from './ray.ts';
import { JOIN_REACH } from './site.ts';
import type { Start } from './starts.ts';

/**
 * How cables come to a closet: a closet joins a standing network as an outlet does, by rays along both axes, so that
 * a closet that moves leaves the network as it is. Every state that it joins is a seed of its search. What an outlet
 * may meet before either of them has come to a node is kept as well: the rays, where they cross lines, and where they
 * come to tracks.
 */
export interface Arrival {
  readonly seeds: readonly Seed[];
  /** From each of these states to the closet. */
  readonly legs: ReadonlyMap<number, readonly Leg[]>;
  readonly rays: readonly Ray[];
  readonly crossings: readonly [LineMeetings, LineMeetings];
  /** Between which coordinates a ray along each axis can come to a line or track with no node between. */
  readonly windows: readonly [Window, Window];
  readonly tracks: ReadonlyMap<number, readonly TrackMeeting[]>;
  /** The least that coming to the closet costs, and the longest length across that this may hold: for lower bounds. */
  readonly base: number;
  readonly lead: number;
}

/** From one coordinate to another. */
export interface Window {
  lo: number;
  hi: number;
}

/** The meetings on the lines along one axis. */
export interface LineMeetings {
  /** 1 for each line that has some. */
  readonly marks: Uint8Array;
  readonly of: ReadonlyMap<number, readonly LineMeeting[]>;
}

/**
 * The ways in to a closet.
 *
 * @param at in the frame of the graph
 * @param height of its termination above the floor
 */
export function arrivalAt(graph: Graph, at: Point, height: number): Arrival {
  const heard = new Heard(graph);
  tryAll(graph, { at, height, wall: null, floor: false }, at, heard);
  return heard.arrival();
}

/** Takes down every way to join the network. */
class Heard implements Taker {
  readonly #seeds = new Map<number, Seed>();
  readonly #legs = new Map<number, readonly Leg[]>();
  readonly #rays: Ray[] = [];
  readonly #meetings: readonly [Map<number, LineMeeting[]>, Map<number, LineMeeting[]>];
  readonly #marks: readonly [Uint8Array, Uint8Array];
  readonly #all: readonly [Uint8Array, Uint8Array];
  readonly #tracks = new Map<number, TrackMeeting[]>();
  readonly #windows: readonly [Window, Window] = [
    { lo: Infinity, hi: -Infinity },
    { lo: Infinity, hi: -Infinity },
  ];
  readonly bound = new Bound(null);
  readonly #graph: Graph;
  #state = -1;
  #base = Infinity;
  #lead = 0;

  constructor(graph: Graph) {
    const [h, v] = graph.lines;
    this.#graph = graph;
    this.#meetings = [new Map(), new Map()];
    this.#marks = [new Uint8Array(h.count), new Uint8Array(v.count)];
    this.#all = [new Uint8Array(h.count).fill(1), new Uint8Array(v.count).fill(1)];
  }

  better(cost: number, second: number, _own: number, state: number): boolean {
    const known = this.#seeds.get(state);
    if (known && (cost > known.cost || (cost === known.cost && second >= known.second)))
      return false;
    this.#seeds.set(state, { state, cost, second });
    this.#state = state;
    return true;
  }

  keep(_start: Start | null, legs: readonly Leg[]): void {
    this.#legs.set(this.#state, legs);
  }

  sets(ray: Ray): void {
    this.#rays.push(ray);
    this.#base = Math.min(this.#base, ray.cost);
    this.#lead = Math.max(this.#lead, ray.start.lead);
  }

  marks({ axis }: Ray): Uint8Array {
    return this.#all[(1 - axis) as 0 | 1];
  }

  crosses(line: number, meeting: LineMeeting): void {
    const { ray, gap } = meeting;
    const axis = (1 - ray.axis) as 0 | 1;
    this.#marks[axis][line] = 1;
    const { from, listPosition, lines } = this.#graph;
    const positions = listPosition[axis];
    const before = gap >= from[axis][line]! ? positions[gap]! : lines[axis].lo[line]!;
    const after = gap + 1 < from[axis][line + 1]! ? positions[gap + 1]! : lines[axis].hi[line]!;
    widen(this.#windows[ray.axis], before, after);
    put(this.#meetings[axis], line, meeting);
  }

  minds(): boolean {
    return true;
  }

  comesTo(track: number, meeting: TrackMeeting): void {
    put(this.#tracks, track, meeting);
    const { axis } = this.#graph.tracks[track]!;
    const stops = this.#graph.stops[track]!;
    if (axis === 2) for (const window of this.#windows) widen(window, -Infinity, Infinity);
    else
      widen(
        this.#windows[(1 - axis) as 0 | 1],
        stops[meeting.gap - 1]?.p ?? meeting.p,
        stops[meeting.gap]?.p ?? meeting.p,
      );
    this.#base = Math.min(this.#base, meeting.cost);
    if (meeting.start === null) this.#lead = Math.max(this.#lead, JOIN_REACH);
  }

  arrival(): Arrival {
    const [h, v] = this.#meetings;
    const [hMarks, vMarks] = this.#marks;
    return {
      seeds: [...this.#seeds.values()],
      legs: this.#legs,
      rays: this.#rays,
      crossings: [
        { marks: hMarks, of: h },
        { marks: vMarks, of: v },
      ],
      windows: this.#windows,
      tracks: this.#tracks,
      base: this.#base,
      lead: this.#lead,
    };
  }
}

function widen(window: Window, lo: number, hi: number): void {
  window.lo = Math.min(window.lo, lo);
  window.hi = Math.max(window.hi, hi);
}

function put<T>(lists: Map<number, T[]>, key: number, value: T): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
}
