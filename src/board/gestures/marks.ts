import { formatLength, type Units } from '../../base/units.ts';
import type { Mark, Style } from '../../drawing/display.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Point } from '../../geometry/point.ts';
import type { Outcome } from '../../plan/commands/command.ts';
import { commands } from '../../plan/commands/index.ts';
import { job } from '../../plan/plan.ts';
import type { Call, ToolContext, ToolEffect } from '../tools/tool.ts';

/** Lines of what is being drawn: in the pick ink, firm or not yet. */
export const FIRM: Style = { stroke: 'pick', width: 0.4 };
export const LOOSE: Style = { stroke: 'pick', width: 0.3, dash: [1.4, 0.9] };

/** A press that moves less than this is a click, px. */
export const CLICK = 5;
/** The same for a finger, px. */
export const TAP = 10;

export const unitsOf = (context: ToolContext): Units => job(context.plan).units;

/** Whether a press has become a drag. */
export const dragged = (from: Point, to: Point, context: ToolContext, touch: boolean): boolean =>
  distance(from, to) > (touch ? TAP : CLICK) * context.pixel;

/** What a command would do to the plan. */
export function outcomeOf(call: Call, context: ToolContext): Outcome {
  const command = commands[call.name] as (
    plan: ToolContext['plan'],
    args: unknown,
    rest: Pick<ToolContext, 'kinds'>,
  ) => Outcome;
  return command(context.plan, call.args, { kinds: context.kinds });
}

/** Shows what a command would do; nothing where it could not. */
export function previewOf(call: Call, context: ToolContext): ToolEffect {
  const outcome = outcomeOf(call, context);
  return { do: 'preview', changes: outcome.ok ? outcome.changes : null };
}

/** A length written beside the line that it measures, readable over what lies beneath. */
export function lengthTag(a: Point, b: Point, units: Units): Mark[] {
  const length = distance(a, b);
  if (length < 1) return [];
  const degrees = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
  const turn = degrees > 90 ? degrees - 180 : degrees <= -90 ? degrees + 180 : degrees;
  const rad = (turn * Math.PI) / 180;
  // The text stands on the upper side of the line, a little off it.
  const off = 2.1;
  const text: Mark = {
    op: 'text',
    at: [Math.sin(rad) * off, -Math.cos(rad) * off],
    text: formatLength(length, units),
    size: 3,
    face: 'mono',
    bold: true,
    ink: 'pick',
    align: 'centre',
    vertical: 'middle',
    turn,
    halo: 'paper',
  };
  return [{ op: 'symbol', at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], marks: [text] }];
}

/** A small ring: where a chain closes, where a corner is. */
export const ring = (at: Point): Mark => ({
  op: 'symbol',
  at,
  marks: [
    {
      op: 'circle',
      at: [0, 0],
      radius: 1,
      style: { stroke: 'pick', width: 0.35, fill: 'paper' },
    },
  ],
});

/**
 * The place at a length from another in the direction of a third; east where there is no direction.
 *
 * @param angle degrees clockwise from x, which then hold instead of the third place
 */
export function towards(from: Point, to: Point, mm: number, angle?: number): Point {
  if (angle !== undefined) {
    const turn = (angle * Math.PI) / 180;
    return [
      Math.round(from[0] + Math.cos(turn) * mm) + 0,
      Math.round(from[1] + Math.sin(turn) * mm) + 0,
    ];
  }
  const d = distance(from, to);
  if (d === 0) return [Math.round(from[0] + mm), from[1]];
  return [
    Math.round(from[0] + ((to[0] - from[0]) * mm) / d),
    Math.round(from[1] + ((to[1] - from[1]) * mm) / d),
  ];
}

export const samePlace = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];
