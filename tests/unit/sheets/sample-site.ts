import { readFileSync } from 'node:fs';
import type { Id } from '../../../src/base/ids.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { readPlan } from '../../../src/plan/codec.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import type { Crossing, Place, Run, Survey, Way } from '../../../src/results/types.ts';
import { takeoff } from '../../../src/takeoff/index.ts';

/** The invented restaurant that the program ships as its sample. */
export function samplePlan(): Plan {
  const text = readFileSync(
    new URL('../../../public/samples/restaurant.json', import.meta.url),
    'utf8',
  );
  const read = readPlan(text, new Set(kinds.keys()));
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'));
  return read.value.plan;
}

const ROW = 4200;

/** The corners of a plain way home: along y to the nearest row, along the row to the closet's line, along it. */
function corners(at: Point, closet: Point): Point[] {
  const row = closet[1] + Math.max(1, Math.round((at[1] - closet[1]) / ROW)) * ROW;
  return [at, [at[0], row], [closet[0], row], closet];
}

interface Piece {
  readonly vertical: boolean;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly jack: Id;
}

/** Cuts pieces on one line where any of them ends, so that each stretch has one set of cables. */
function shared(pieces: readonly Piece[], level: Id, z: number): Way[] {
  const ways: Way[] = [];
  const lines = new Map<string, Piece[]>();
  for (const piece of pieces) {
    const key = `${piece.vertical} ${piece.line}`;
    lines.set(key, [...(lines.get(key) ?? []), piece]);
  }
  for (const group of lines.values()) {
    const cuts = [...new Set(group.flatMap((p) => [p.from, p.to]))].sort((a, b) => a - b);
    for (let i = 1; i < cuts.length; i++) {
      const [a, b] = [cuts[i - 1]!, cuts[i]!];
      const jacks = group.filter((p) => p.from <= a && p.to >= b).map((p) => p.jack);
      if (jacks.length === 0) continue;
      const { vertical, line } = group[0]!;
      const end = (v: number): Place => (vertical ? [line, v, z] : [v, line, z]);
      ways.push({ level, from: end(a), to: end(b), pathway: null, jacks: jacks.sort() });
    }
  }
  return ways;
}

function crossingsOf(plan: Plan, points: readonly Point[]): Crossing[] {
  const found: Crossing[] = [];
  for (const wall of plan.tables.walls.values()) {
    if (wall.top !== 'deck' && !wall.rated) continue;
    for (let i = 1; i < points.length; i++) {
      const [p, q] = [points[i - 1]!, points[i]!];
      const upright = wall.a[0] === wall.b[0];
      const [u, v]: readonly [0 | 1, 0 | 1] = upright ? [0, 1] : [1, 0];
      const at = wall.a[u];
      const hit =
        (p[u] - at) * (q[u] - at) < 0 &&
        p[v] > Math.min(wall.a[v], wall.b[v]) &&
        p[v] < Math.max(wall.a[v], wall.b[v]);
      if (hit)
        found.push({
          wall: wall.id,
          construction: wall.construction,
          at: upright ? [at, p[1], 3000] : [p[0], at, 3000],
          work: wall.construction === 'masonry' ? 'core' : 'sleeve',
          firestop: wall.rated,
          price: 1000,
          pathway: null,
        });
    }
  }
  return found;
}

/** A survey with plain hand-made runs, for tests that ask how things are drawn and not which way cables take. */
export function plainSurvey(plan: Plan): Survey {
  const closet = [...plan.tables.closets.values()][0]!;
  const runs: Run[] = [];
  const pieces: Piece[] = [];
  const z = 3000;
  for (const jack of plan.tables.jacks.values()) {
    const outlet = plan.tables.outlets.get(jack.outlet)!;
    const points = corners(outlet.at, closet.at);
    let across = 0;
    for (let i = 1; i < points.length; i++) {
      const [p, q] = [points[i - 1]!, points[i]!];
      across += Math.abs(q[0] - p[0]) + Math.abs(q[1] - p[1]);
      const vertical = p[0] === q[0];
      const axis = vertical ? 1 : 0;
      const from = Math.min(p[axis], q[axis]);
      const to = Math.max(p[axis], q[axis]);
      if (to > from) pieces.push({ vertical, line: p[vertical ? 0 : 1], from, to, jack: jack.id });
    }
    const vertical = z - outlet.height + (z - closet.height);
    const path = across + vertical;
    runs.push({
      jack: jack.id,
      label: jack.label,
      outlet: outlet.id,
      device: jack.device,
      closet: closet.id,
      level: outlet.level,
      status: 'ok',
      across,
      vertical,
      slack: 3300,
      path,
      cable: path + 3300,
      order: Math.ceil(((path + 3300) * 1.1) / 305) * 305,
      channel: path + 3300 + 3048,
      limit: 90_000,
      cost: path,
      parts: [
        { kind: 'up', length: z - outlet.height, zone: null, pathway: null },
        { kind: 'across', length: across, zone: null, pathway: null },
        { kind: 'down', length: z - closet.height, zone: null, pathway: null },
        { kind: 'outlet-slack', length: 300, zone: null, pathway: null },
        { kind: 'closet-loop', length: 3000, zone: null, pathway: null },
      ],
      segments: [],
      points: [],
      crossings: crossingsOf(plan, points),
      pathways: [],
      bends: 2,
      blocked: null,
    });
  }
  const ways = shared(pieces, closet.level, z);
  return { runs, ways, findings: [], ...takeoff(plan, kinds, runs, ways) };
}

/** The fonts that the program ships. */
export function fontBytes() {
  const font = (file: string) =>
    new Uint8Array(readFileSync(new URL(`../../../public/fonts/${file}`, import.meta.url)));
  return {
    sans: font('AtkinsonHyperlegibleNext_400Regular.ttf'),
    'sans-bold': font('AtkinsonHyperlegibleNext_700Bold.ttf'),
    mono: font('AtkinsonHyperlegibleMono_400Regular.ttf'),
    'mono-bold': font('AtkinsonHyperlegibleMono_700Bold.ttf'),
  };
}
