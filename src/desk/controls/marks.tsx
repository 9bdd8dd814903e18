import type { ReactNode } from 'react';
import type { Ink, Mark, Style } from '../../drawing/display.ts';

/** The colour of an ink: a custom property that the theme sets. */
export const inkColour = (ink: Ink): string => `var(--ink-${ink})`;

const paint = ({ stroke, width, dash, fill, opacity }: Style) => ({
  stroke: stroke ? inkColour(stroke) : 'none',
  strokeWidth: width,
  strokeDasharray: dash?.join(' '),
  fill: fill ? inkColour(fill) : 'none',
  opacity,
});

const ANCHOR = { left: 'start', centre: 'middle', right: 'end' } as const;

function drawn(mark: Mark, key: number): ReactNode {
  switch (mark.op) {
    case 'line': {
      const points = mark.points.map((p) => p.join(',')).join(' ');
      const Shape = mark.closed ? 'polygon' : 'polyline';
      return <Shape key={key} points={points} strokeLinejoin="round" {...paint(mark.style)} />;
    }
    case 'circle':
      return (
        <circle key={key} cx={mark.at[0]} cy={mark.at[1]} r={mark.radius} {...paint(mark.style)} />
      );
    case 'text':
      return (
        <text
          key={key}
          x={mark.at[0]}
          y={mark.at[1] + (mark.vertical === 'middle' ? mark.size * 0.334 : 0)}
          fontSize={mark.size}
          fontWeight={mark.bold ? 700 : 400}
          fill={inkColour(mark.ink)}
          textAnchor={ANCHOR[mark.align ?? 'left']}
        >
          {mark.text}
        </text>
      );
    case 'symbol':
      return (
        <g key={key} transform={`translate(${mark.at[0]} ${mark.at[1]}) rotate(${mark.turn ?? 0})`}>
          {mark.marks.map(drawn)}
        </g>
      );
    default:
      // Groups and pictures do not occur in symbols.
      return null;
  }
}

/** Marks of a symbol as a small picture, at a scale of its paper mm. */
export function MarksPicture({
  marks,
  width = 8.4,
  height = 6.4,
  scale = 4.4,
}: {
  marks: readonly Mark[];
  width?: number;
  height?: number;
  scale?: number;
}) {
  return (
    <svg
      aria-hidden="true"
      className="marks"
      width={width * scale}
      height={height * scale}
      viewBox={`${-width / 2} ${-height / 2} ${width} ${height}`}
    >
      {marks.map(drawn)}
    </svg>
  );
}

/** A kind's outline with its two letters. */
export function KindPicture({
  symbol,
  code,
  scale,
}: {
  symbol: readonly Mark[];
  code: string;
  scale?: number;
}) {
  const letters: Mark = {
    op: 'text',
    at: [0, 0],
    text: code,
    size: 2.5,
    bold: true,
    ink: 'ink',
    align: 'centre',
    vertical: 'middle',
  };
  return <MarksPicture marks={[...symbol, letters]} {...(scale === undefined ? {} : { scale })} />;
}
