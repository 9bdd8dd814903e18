import type { Id } from '../base/ids.ts';
import type { Crossing, Run, SegmentKind } from './types.ts';

/** One summand of what the search minimised; costs in equivalent mm. */
export type CostLine =
  | {
      readonly of: 'way';
      readonly kind: SegmentKind;
      readonly level: Id;
      readonly zone: Id | null;
      readonly pathway: Id | null;
      /** Of the cable above the ground level's floor; null for what goes up or down. */
      readonly elevation: number | null;
      readonly length: number;
      /** Percent. */
      readonly factor: number;
      readonly cost: number;
    }
  | { readonly of: 'crossing'; readonly crossing: Crossing; readonly cost: number }
  | { readonly of: 'bends'; readonly count: number; readonly price: number; readonly cost: number }
  | { readonly of: 'rounding'; readonly cost: number };

/**
 * Why a run goes the way that it goes: each stretch with its length, factor and cost, each wall with its price, the
 * bends. The costs add up to `run.cost`, and the lengths of the ways to `run.path`. Neighbours of the same kind, room,
 * pathway, elevation and factor are one line. Empty for a run without a way.
 *
 * Off the building lines places are rounded to whole mm after the search; what that makes is a line of its own.
 *
 * @param bend price of a bend, equivalent mm
 */
export function costLines(run: Run, bend: number): CostLine[] {
  if (run.status === 'unroutable') return [];
  const lines: CostLine[] = [...wayLines(run)];
  for (const crossing of run.crossings)
    lines.push({ of: 'crossing', crossing, cost: crossing.price });
  if (run.bends > 0)
    lines.push({ of: 'bends', count: run.bends, price: bend, cost: run.bends * bend });
  // Whole hundredths, since factors are whole percent: nothing is lost in binary.
  const hundredths = lines.reduce((sum, { cost }) => sum + Math.round(cost * 100), 0);
  const rest = Math.round(run.cost * 100) - hundredths;
  return rest === 0 ? lines : [...lines, { of: 'rounding', cost: rest / 100 }];
}

function wayLines({ segments }: Run): CostLine[] {
  const lines: Extract<CostLine, { of: 'way' }>[] = [];
  for (const { kind, level, zone, pathway, from, length, factor } of segments) {
    const elevation = kind === 'across' ? from[2] : null;
    const last = lines.at(-1);
    const goesOn =
      last?.kind === kind &&
      last.level === level &&
      last.zone === zone &&
      last.pathway === pathway &&
      last.elevation === elevation &&
      last.factor === factor;
    const whole = goesOn ? last.length + length : length;
    if (goesOn) lines.pop();
    const cost = (whole * factor) / 100;
    lines.push({ of: 'way', kind, level, zone, pathway, elevation, length: whole, factor, cost });
  }
  return lines;
}
