import type { Point } from '../geometry/point.ts';
import type { Graph } from './graph.ts';
import {
  type CeilingKind,
  ceilingFactor,
  type Lie,
  type RouteSegment,
  type SitePlace,
  type SiteRiser,
} from './site.ts';
import type { Stretch } from './stretches.ts';

/** What goes up or down counts for its real length, percent. */
const REAL = 100;

/** Segments that were laid before, from where the cable was to where it is after them. */
export interface Laid {
  readonly segments: readonly RouteSegment[];
  readonly lies: readonly (Lie | null)[];
  readonly from: SitePlace;
  readonly to: SitePlace;
}

/** Lays segments end to end on whole millimetres, so that their lengths add up exactly. */
export class SegmentMaker {
  readonly segments: RouteSegment[] = [];
  readonly lies: (Lie | null)[] = [];
  #graph: Graph;
  #x: number;
  #y: number;
  /** Above the floor of the level. */
  #z: number;

  constructor(graph: Graph, at: Point, height: number) {
    this.#graph = graph;
    [this.#x, this.#y] = [Math.round(at[0]), Math.round(at[1])];
    this.#z = Math.round(height);
  }

  place(): SitePlace {
    const { site, ground } = this.#graph;
    const [x, y] = ground.frame.back(this.#x, this.#y);
    return [x, y, this.#z + site.elevation];
  }

  /** Where the cable is, in the frame and above the floor of the level. */
  here(): SitePlace {
    return [this.#x, this.#y, this.#z];
  }

  /** What was laid since there were so many segments and the cable was at a place. */
  since(count: number, from: SitePlace): Laid {
    return {
      segments: this.segments.slice(count),
      lies: this.lies.slice(count),
      from,
      to: this.here(),
    };
  }

  /** Lays the very same segments again; false where they do not begin at this place. */
  again({ segments, lies, from, to }: Laid): boolean {
    if (from[0] !== this.#x || from[1] !== this.#y || from[2] !== this.#z) return false;
    for (let i = 0; i < segments.length; i++) {
      this.segments.push(segments[i]!);
      this.lies.push(lies[i]!);
    }
    [this.#x, this.#y, this.#z] = to;
    return true;
  }

  rise(to: number, zone: number, end: boolean): void {
    const z = Math.round(to);
    if (z === this.#z) return;
    const from = this.place();
    const length = Math.abs(z - this.#z);
    const kind = end ? (z > this.#z ? 'up' : 'down') : 'step';
    this.#z = z;
    this.#put(kind, from, length, zone, -1, null);
  }

  /** By a riser to an elevation above the floor of another level. */
  climb(onto: Graph, to: number, riser: SiteRiser): void {
    const from = this.place();
    const { site } = this.#graph;
    this.#graph = onto;
    [this.#x, this.#y] = onto.ground.frame.into(riser.at);
    this.#z = Math.round(to);
    const end = this.place();
    const length = Math.abs(end[2] - from[2]);
    if (length === 0) return;
    this.segments.push({
      kind: 'riser',
      level: site.id,
      from,
      to: end,
      length,
      zone: null,
      ceiling: null,
      pathway: null,
      riser: riser.id,
      factor: REAL,
    });
    this.lies.push(null);
  }

  go(to: Point, s: Stretch): void {
    const x = Math.round(to[0]);
    const y = Math.round(to[1]);
    const dx = Math.abs(x - this.#x);
    const dy = Math.abs(y - this.#y);
    if (dx === 0 && dy === 0) return;
    const own = to === s.to;
    const slanted = own && !/^[xy]/.test(s.track);
    if (dx > 0 && dy > 0 && !slanted) {
      // Into or along a wall to where the plane is entered: along the axes.
      this.go([x, this.#y], s);
      this.go([x, y], s);
      return;
    }
    const from = this.place();
    const track = own ? s.track : dx > 0 ? `y${this.#y}` : `x${this.#x}`;
    const span: readonly [number, number] = own ? s.span : dx > 0 ? [this.#x, x] : [this.#y, y];
    this.#x = x;
    this.#y = y;
    this.#put('across', from, Math.round(Math.hypot(dx, dy)), s.zone, s.pathway, { track, span });
  }

  #put(
    kind: RouteSegment['kind'],
    from: SitePlace,
    length: number,
    zone: number,
    pathway: number,
    across: { readonly track: string; readonly span: Lie['span'] } | null,
  ): void {
    const { site } = this.#graph;
    const ceiling: CeilingKind = (site.zones[zone] ?? site.ceiling).kind;
    this.segments.push({
      kind,
      level: site.id,
      from,
      to: this.place(),
      length,
      zone: site.zones[zone]?.id ?? null,
      ceiling,
      pathway: site.pathways[pathway]?.id ?? null,
      riser: null,
      factor:
        kind !== 'across'
          ? REAL
          : pathway >= 0
            ? site.prices.pathwayFactor
            : ceilingFactor(ceiling, site.prices),
    });
    this.lies.push(
      across && {
        line: `${site.id} ${across.track} ${site.pathways[pathway]?.id ?? ''} ${from[2]}`,
        span: across.span,
      },
    );
  }
}
