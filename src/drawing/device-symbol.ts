import type { Ink, Mark } from './display.ts';

/** A symbol's outline in another ink; letters and fills stay. */
const inkedIn = (marks: readonly Mark[], ink: Ink): Mark[] =>
  marks.map((mark) =>
    (mark.op === 'line' || mark.op === 'circle') && mark.style.stroke === 'ink'
      ? { ...mark, style: { ...mark.style, stroke: ink } }
      : mark,
  );

/** A device's symbol with its two letters; a kind that the registry does not know is a box with question marks. */
export function deviceSymbol(
  kind: { readonly code: string; readonly symbol: readonly Mark[] } | undefined,
  ink: Ink,
): Mark[] {
  const outline = kind?.symbol ?? UNKNOWN;
  return [
    ...inkedIn(outline, ink),
    {
      op: 'text',
      at: [0, 0],
      text: kind?.code ?? '??',
      size: 2.5,
      bold: true,
      ink,
      align: 'centre',
      vertical: 'middle',
    },
  ];
}

const UNKNOWN: readonly Mark[] = [
  {
    op: 'line',
    closed: true,
    points: [
      [-2.9, -2],
      [2.9, -2],
      [2.9, 2],
      [-2.9, 2],
    ],
    style: { stroke: 'ink', width: 0.3, fill: 'paper', dash: [0.8, 0.6] },
  },
];
