import type { Point } from '../../geometry/point.ts';
import type { LinePen } from './page-lines.ts';

/** Numbers that each command of path data takes (SVG 1.1, 8.3). */
const TAKES: Readonly<Record<string, number>> = {
  m: 2,
  l: 2,
  h: 1,
  v: 1,
  c: 6,
  s: 4,
  q: 4,
  t: 2,
  a: 7,
  z: 0,
};

const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const GAP = /[\s,]*/y;

/** Draws SVG path data; like browsers, draws what stands before the first fault and nothing after it. */
export function drawPathData(pen: LinePen, data: string): void {
  let command = '';
  /** The control point that a smooth curve mirrors, and the command that it belongs to. */
  let control: Point | null = null;
  let controlOf = '';
  let start: Point = [0, 0];
  let at: Point = [0, 0];
  const reader = numbers(data);
  for (;;) {
    const letter = reader.letter();
    if (letter !== '') command = letter;
    else if (reader.done() || command === '' || command.toLowerCase() === 'z') return;
    const kind = command.toLowerCase();
    const n = reader.take(kind);
    if (!n) return;
    const relative = command === kind;
    const place = (i: number): Point =>
      relative ? [at[0] + n[i]!, at[1] + n[i + 1]!] : [n[i]!, n[i + 1]!];
    const mirrored = (of: string): Point =>
      control && of.includes(controlOf) ? [2 * at[0] - control[0], 2 * at[1] - control[1]] : at;
    let next: Point = at;
    let nextControl: Point | null = null;
    if (kind === 'm') {
      next = place(0);
      start = next;
      pen.moveTo(next);
      // Further pairs after a move are lines.
      command = relative ? 'l' : 'L';
    } else if (kind === 'z') {
      pen.close();
      next = start;
    } else if (kind === 'l') {
      next = place(0);
      pen.lineTo(next);
    } else if (kind === 'h') {
      next = [relative ? at[0] + n[0]! : n[0]!, at[1]];
      pen.lineTo(next);
    } else if (kind === 'v') {
      next = [at[0], relative ? at[1] + n[0]! : n[0]!];
      pen.lineTo(next);
    } else if (kind === 'c' || kind === 's') {
      const first = kind === 'c' ? place(0) : mirrored('cs');
      nextControl = place(kind === 'c' ? 2 : 0);
      next = place(kind === 'c' ? 4 : 2);
      pen.curveTo(first, nextControl, next);
    } else if (kind === 'q' || kind === 't') {
      nextControl = kind === 'q' ? place(0) : mirrored('qt');
      next = place(kind === 'q' ? 2 : 0);
      pen.quadTo(nextControl, next);
    } else {
      next = place(5);
      drawArc(pen, at, next, n);
    }
    at = next;
    control = nextControl;
    controlOf = kind;
  }
}

/** Reads commands and their numbers off path data. */
function numbers(data: string) {
  let i = 0;
  const gap = () => {
    GAP.lastIndex = i;
    GAP.exec(data);
    i = Math.max(i, GAP.lastIndex);
  };
  const number = (): number | null => {
    gap();
    NUMBER.lastIndex = i;
    const found = NUMBER.exec(data);
    if (!found) return null;
    i = NUMBER.lastIndex;
    return Number(found[0]);
  };
  /** The flags of an arc are one digit each, and may stand without a gap (SVG 1.1, 8.3.9). */
  const flag = (): number | null => {
    gap();
    const digit = data[i];
    if (digit !== '0' && digit !== '1') return null;
    i++;
    return Number(digit);
  };
  return {
    done(): boolean {
      gap();
      return i >= data.length;
    },
    letter(): string {
      gap();
      const letter = data[i] ?? '';
      if (!(letter.toLowerCase() in TAKES)) return '';
      i++;
      return letter;
    },
    /** The numbers of a command; null at a fault. */
    take(kind: string): number[] | null {
      const taken: number[] = [];
      for (let k = 0; k < TAKES[kind]!; k++) {
        const value = kind === 'a' && (k === 3 || k === 4) ? flag() : number();
        if (value === null) return null;
        taken.push(value);
      }
      return taken;
    },
  };
}

/** Draws an elliptical arc as curves of a quarter at most: end points to centre by SVG 1.1, F.6.5 and F.6.6. */
function drawArc(pen: LinePen, from: Point, to: Point, n: readonly number[]): void {
  let [rx, ry] = [Math.abs(n[0]!), Math.abs(n[1]!)];
  if (rx === 0 || ry === 0 || (from[0] === to[0] && from[1] === to[1])) {
    pen.lineTo(to);
    return;
  }
  const turn = (n[2]! * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [hx, hy] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const x = cos * hx + sin * hy;
  const y = -sin * hx + cos * hy;
  const tight = Math.sqrt((x / rx) ** 2 + (y / ry) ** 2);
  if (tight > 1) [rx, ry] = [rx * tight, ry * tight];
  const under = (rx * ry) ** 2 - (rx * y) ** 2 - (ry * x) ** 2;
  const far = Math.sqrt(Math.max(0, under) / ((rx * y) ** 2 + (ry * x) ** 2));
  const side = n[3] === n[4] ? -far : far;
  const [cx, cy] = [(side * rx * y) / ry, (-side * ry * x) / rx];
  const first = Math.atan2((y - cy) / ry, (x - cx) / rx);
  let sweep = Math.atan2((-y - cy) / ry, (-x - cx) / rx) - first;
  if (n[4] === 1 && sweep < 0) sweep += 2 * Math.PI;
  if (n[4] === 0 && sweep > 0) sweep -= 2 * Math.PI;
  const [mx, my] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const on = (u: number, v: number): Point => {
    const [px, py] = [cx + rx * u, cy + ry * v];
    return [mx + cos * px - sin * py, my + sin * px + cos * py];
  };
  const parts = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2) - 1e-9));
  const k = (4 / 3) * Math.tan(sweep / parts / 4);
  for (let i = 0; i < parts; i++) {
    const a = first + (sweep * i) / parts;
    const b = first + (sweep * (i + 1)) / parts;
    const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
    pen.curveTo(
      on(ca - k * sa, sa + k * ca),
      on(cb + k * sb, sb - k * cb),
      i === parts - 1 ? to : on(cb, sb),
    );
  }
}
