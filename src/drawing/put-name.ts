import type { Point } from '../geometry/point.ts';
import type { Ink, Mark } from './display.ts';
import { place } from './label-place.ts';
import { type Drafting, inOneLine, type PlanGroup, toBuilding, toPaper } from './plan-view.ts';
import { leaderMark } from './put-symbol.ts';

/** A line of a name, with its size on paper, mm. */
interface NameLine {
  readonly text: string;
  readonly size: number;
  readonly bold?: boolean;
  readonly ink: Ink;
}

/** A name that wants to stand beside its symbol. */
interface NameWish {
  readonly group: PlanGroup;
  /** Where the symbol stands, mm of the building, and how far it reaches on paper, mm. */
  readonly at: Point;
  readonly reach: number;
  readonly lines: readonly NameLine[];
  /** The ink of its leader. */
  readonly ink: Ink;
}

/** From one line of a name to the next, paper mm. */
const LINE = 2.3;

/** Puts a name beside its symbol, on a leader where it stands off; says where there is no room for it. */
export function putName(drafting: Drafting, wish: NameWish): void {
  const { view, field, put, leaveOut } = drafting;
  const lines = wish.lines
    .filter(({ text }) => text !== '')
    .map((line) => ({ ...line, text: inOneLine(view, line.text, line.size, line.bold) }));
  if (lines.length === 0) return;
  const widths = lines.map(({ text, size, bold = false }) =>
    view.measure.width(text, size, 'sans', bold),
  );
  const placed = place(field, {
    anchor: toPaper(view, wish.at),
    reach: wish.reach,
    width: Math.max(...widths) + 0.5,
    height: lines.length * LINE + 0.1,
    onAnchor: false,
  });
  if (!placed) {
    leaveOut(wish.group, wish.lines.find(({ text }) => text !== '')!.text);
    return;
  }
  if (placed.leader) put('leaders', leaderMark(drafting, placed.leader, wish.ink));
  const marks = lines.map(
    ({ text, size, bold, ink }, i): Mark => ({
      op: 'text',
      at: [0, (i - (lines.length - 1) / 2) * LINE],
      text,
      size,
      ...(bold ? { bold } : {}),
      ink,
      align: 'centre',
      vertical: 'middle',
      halo: 'paper',
    }),
  );
  put(wish.group, { op: 'symbol', at: toBuilding(view, placed.at), marks });
}
