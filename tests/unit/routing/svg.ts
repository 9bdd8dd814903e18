import type { Point } from '../../../src/geometry/point.ts';
import type { Graph } from '../../../src/routing/graph.ts';
import type { Route, RouteSegment, Site, Terminal } from '../../../src/routing/index.ts';
import type { LineSet } from '../../../src/routing/lines.ts';

/** Pixels to a metre, and the margin round a drawing. */
const SCALE = 40;
const MARGIN = 26;
/** How far the two sides of a line are drawn apart, and a label from what it names, pixels. */
const APART = 3;
const OFF = 7;
/** About the width of a character of a caption, pixels. */
const CHARACTER = 6.4;

/** What stands beside one level in a picture. */
export interface Scene {
  readonly site: Site;
  /** A word over the level. */
  readonly name?: string;
  readonly terminal?: Terminal;
  readonly route?: Route;
  readonly risers?: readonly Point[];
  /** Lines and nodes of the network. */
  readonly graph?: Graph;
  /** Whether to show the lines by which the terminal is looked up. */
  readonly rays?: boolean;
  /** What is shown, mm; the outer faces of the walls where it is left out. */
  readonly window?: readonly [x0: number, y0: number, x1: number, y1: number];
  /** Pixels to a metre, where the usual is too small. */
  readonly scale?: number;
}

/** Metres with two decimals, as a tape reads. */
export const metres = (mm: number): string => (mm / 1000).toFixed(2);

const number = (v: number): string => String(Math.round(v * 10) / 10);
const safe = (text: string): string =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');

/** A picture of one level or of several side by side, with lines of text below. */
export function picture(
  title: string,
  scenes: readonly Scene[],
  captions: readonly string[],
): string {
  const parts: string[] = [];
  let x = MARGIN;
  let bottom = 0;
  for (const scene of scenes) {
    const view = new View(scene, x, MARGIN + (scene.name ? 12 : 0));
    parts.push(...drawn(scene, view));
    x = view.right + MARGIN;
    bottom = Math.max(bottom, view.bottom);
  }
  const below = captions.map((line, i) =>
    text(MARGIN, bottom + 24 + 17 * i, line, 'caption', 'start'),
  );
  const longest = Math.max(...captions.map((line) => line.length));
  const width = Math.max(x, 2 * MARGIN + longest * CHARACTER);
  const height = bottom + 20 + 17 * captions.length;
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${number(width)} ${number(height)}" width="${number(width)}" height="${number(height)}" role="img">`,
    `<title>${safe(title)}</title>`,
    STYLE,
    `<rect width="100%" height="100%" fill="#ffffff"/>`,
    ...parts,
    ...below,
    '</svg>',
  ].join('\n')}\n`;
}

const STYLE = `<style>
text { font: 11px sans-serif; fill: #1d2733; paint-order: stroke; stroke: #ffffff; stroke-width: 3px; }
.caption { font-size: 12px; }
.note { fill: #59636e; }
.way { fill: #b3380f; font-weight: bold; }
</style>`;

/** Turns the millimetres of a scene into pixels. */
class View {
  readonly right: number;
  readonly bottom: number;
  readonly window: readonly [number, number, number, number];
  readonly #scale: number;
  readonly #left: number;
  readonly #top: number;

  constructor(scene: Scene, left: number, top: number) {
    this.window = scene.window ?? boundsOf(scene.site);
    this.#scale = (scene.scale ?? SCALE) / 1000;
    this.#left = left;
    this.#top = top;
    this.right = left + (this.window[2] - this.window[0]) * this.#scale;
    this.bottom = top + (this.window[3] - this.window[1]) * this.#scale;
  }

  x = (mm: number): number => this.#left + (mm - this.window[0]) * this.#scale;
  y = (mm: number): number => this.#top + (mm - this.window[1]) * this.#scale;
  points = (points: readonly Point[]): string =>
    points.map((p) => `${number(this.x(p[0]))},${number(this.y(p[1]))}`).join(' ');
}

function boundsOf({ walls }: Site): [number, number, number, number] {
  const xs = walls.flatMap((w) => [w.a[0], w.b[0]]);
  const ys = walls.flatMap((w) => [w.a[1], w.b[1]]);
  const half = Math.max(...walls.map((w) => w.thickness / 2));
  return [
    Math.min(...xs) - half,
    Math.min(...ys) - half,
    Math.max(...xs) + half,
    Math.max(...ys) + half,
  ];
}

function drawn(scene: Scene, view: View): string[] {
  const { site, graph, terminal, route, name } = scene;
  return [
    ...(name ? [text(view.x(view.window[0]), view.y(view.window[1]) - 8, name, '', 'start')] : []),
    ...zones(site, view),
    ...walls(site, view),
    ...keepouts(site, view),
    ...pathways(site, view),
    ...(graph ? network(graph, view) : []),
    ...(terminal && scene.rays ? rays(terminal.at, view) : []),
    ...(route ? way(route, site, view) : []),
    ...(scene.risers ?? []).map((at) => riser(at, view)),
    ...site.closets.map((c) => closet(c.at, view)),
    ...(terminal ? [outlet(terminal.at, view)] : []),
  ];
}

const text = (x: number, y: number, words: string, kind: string, anchor: string): string =>
  `<text x="${number(x)}" y="${number(y)}" text-anchor="${anchor}"${kind ? ` class="${kind}"` : ''}>${safe(words)}</text>`;

const middle = (points: readonly Point[]): Point => {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
};

function zones({ zones }: Site, view: View): string[] {
  const [x0, y0, x1, y1] = view.window;
  return zones.flatMap(({ outline: whole, elevation }) => {
    const outline = whole.map(
      (p): Point => [Math.min(x1, Math.max(x0, p[0])), Math.min(y1, Math.max(y0, p[1]))],
    );
    const [x] = middle(outline);
    const y = Math.max(...outline.map((p) => p[1]));
    return [
      `<polygon points="${view.points(outline)}" fill="#e8f0f7" stroke="#9db4c8" stroke-dasharray="4 3"/>`,
      text(view.x(x), view.y(y) - 8, `cable at ${metres(elevation)}`, 'note', 'middle'),
    ];
  });
}

function walls({ walls }: Site, view: View): string[] {
  return walls.map(({ a, b, thickness, exterior }) => {
    const half = thickness / 2;
    const x0 = view.x(Math.min(a[0], b[0]) - half);
    const y0 = view.y(Math.min(a[1], b[1]) - half);
    const x1 = view.x(Math.max(a[0], b[0]) + half);
    const y1 = view.y(Math.max(a[1], b[1]) + half);
    const fill = exterior ? '#59636e' : '#c3c9d0';
    return `<rect x="${number(x0)}" y="${number(y0)}" width="${number(x1 - x0)}" height="${number(y1 - y0)}" fill="${fill}"/>`;
  });
}

function keepouts({ keepouts }: Site, view: View): string[] {
  return keepouts.flatMap(({ outline, clearance }) => {
    const [x, y] = middle(outline);
    const round = outline.map(
      (p): Point => [
        p[0] + (p[0] < x ? -clearance : clearance),
        p[1] + (p[1] < y ? -clearance : clearance),
      ],
    );
    return [
      `<polygon points="${view.points(outline)}" fill="#f6e3e0" stroke="#b5655a"/>`,
      ...(clearance > 0
        ? [
            `<polygon points="${view.points(round)}" fill="none" stroke="#b5655a" stroke-dasharray="4 3"/>`,
          ]
        : []),
      text(view.x(x), view.y(y), 'kept out', 'note', 'middle'),
    ];
  });
}

function pathways({ pathways }: Site, view: View): string[] {
  return pathways.flatMap(({ points, kind }) => {
    const end = points[points.length - 1]!;
    return [
      `<polyline points="${view.points(points)}" fill="none" stroke="#8fb7e3" stroke-width="7"/>`,
      text(view.x(end[0]) + OFF, view.y(end[1]) + 4, kind, 'note', 'start'),
    ];
  });
}

/** How far a line is drawn beside its place: where there is one on either side of it. */
function apart({ c, side }: LineSet, line: number): number {
  const both = c.some((at, i) => at === c[line] && side[i] !== side[line]);
  return !both ? 0 : side[line] === 0 ? -APART : APART;
}

/** Lines and nodes; the two sides of a line stand apart, so that both can be seen. */
function network(graph: Graph, view: View): string[] {
  const [x0, y0, x1, y1] = view.window;
  const out: string[] = [];
  for (const axis of [0, 1] as const) {
    const { count, c, lo, hi } = graph.lines[axis];
    const [least, most] = axis === 0 ? [x0, x1] : [y0, y1];
    for (let i = 0; i < count; i++) {
      const from = Math.max(lo[i]!, least);
      const to = Math.min(hi[i]!, most);
      const off = apart(graph.lines[axis], i);
      const ends: Point[] =
        axis === 0
          ? [
              [view.x(from), view.y(c[i]!) + off],
              [view.x(to), view.y(c[i]!) + off],
            ]
          : [
              [view.x(c[i]!) + off, view.y(from)],
              [view.x(c[i]!) + off, view.y(to)],
            ];
      out.push(
        `<polyline points="${ends.map((p) => p.map(number).join(',')).join(' ')}" fill="none" stroke="#7a8894"/>`,
      );
    }
  }
  for (let node = 0; node < graph.nodes; node++) {
    const [h, v] = [graph.lineOf[0][node]!, graph.lineOf[1][node]!];
    const x = view.x(graph.x[node]!) + apart(graph.lines[1], v);
    const y = view.y(graph.y[node]!) + apart(graph.lines[0], h);
    out.push(`<circle cx="${number(x)}" cy="${number(y)}" r="2" fill="#1d2733"/>`);
  }
  return out;
}

function rays([x, y]: Point, view: View): string[] {
  const [x0, y0, x1, y1] = view.window;
  const ends: Point[][] = [
    [
      [x0, y],
      [x1, y],
    ],
    [
      [x, y0],
      [x, y1],
    ],
  ];
  return ends.map(
    (line) =>
      `<polyline points="${view.points(line)}" fill="none" stroke="#2f7d4f" stroke-dasharray="5 4"/>`,
  );
}

function way(route: Route, site: Site, view: View): string[] {
  const here = route.segments.filter((s) => s.level === site.id && s.kind !== 'riser');
  const across = here.filter((s) => s.kind === 'across');
  const first = across[0];
  if (!first) return [];
  const points = [first.from, ...across.map((s) => s.to)].map(([x, y]): Point => [x, y]);
  return [
    `<polyline points="${view.points(points)}" fill="none" stroke="#d9480f" stroke-width="2.5" stroke-linejoin="round"/>`,
    ...here.map((s) => lengthOf(s, view)),
    ...route.crossings
      .filter((c) => c.level === site.id && c.work !== 'none')
      .map((c) => passage(c.at[0], c.at[1], c.work, view)),
  ];
}

/** A length beside its stretch: under what runs along x, right of what runs along y. */
function lengthOf(s: RouteSegment, view: View): string {
  const [ax, ay, bx, by] = [view.x(s.from[0]), view.y(s.from[1]), view.x(s.to[0]), view.y(s.to[1])];
  const words = s.kind === 'across' ? metres(s.length) : `${s.kind} ${metres(s.length)}`;
  if (s.kind === 'up') return text(ax, ay - 11, words, 'way', 'middle');
  if (s.kind === 'down') return text(bx, by - 24, words, 'way', 'middle');
  if (s.kind === 'step') return text(ax + OFF, ay - OFF, words, 'way', 'start');
  if (Math.abs(bx - ax) > Math.abs(by - ay))
    return text((ax + bx) / 2, (ay + by) / 2 + 15, words, 'way', 'middle');
  return text(ax + OFF, (ay + by) / 2 + 4, words, 'way', 'start');
}

const passage = (x: number, y: number, work: string, view: View): string =>
  [
    `<circle cx="${number(view.x(x))}" cy="${number(view.y(y))}" r="5" fill="#ffffff" stroke="#d9480f" stroke-width="2"/>`,
    text(view.x(x) + 10, view.y(y) - 10, work, 'way', 'start'),
  ].join('\n');

const outlet = ([x, y]: Point, view: View): string =>
  [
    `<circle cx="${number(view.x(x))}" cy="${number(view.y(y))}" r="5" fill="#1d2733"/>`,
    text(view.x(x) + 9, view.y(y) + 4, 'outlet', '', 'start'),
  ].join('\n');

const closet = ([x, y]: Point, view: View): string =>
  [
    `<rect x="${number(view.x(x) - 6)}" y="${number(view.y(y) - 6)}" width="12" height="12" fill="#1d2733"/>`,
    text(view.x(x), view.y(y) - 11, 'closet', '', 'middle'),
  ].join('\n');

const riser = ([x, y]: Point, view: View): string =>
  [
    `<circle cx="${number(view.x(x))}" cy="${number(view.y(y))}" r="7" fill="#ffffff" stroke="#1d2733" stroke-width="2"/>`,
    text(view.x(x), view.y(y) - 12, 'riser', '', 'middle'),
  ].join('\n');
