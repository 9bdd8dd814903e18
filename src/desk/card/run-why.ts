import { apportion, shownStep } from '../../base/apportion.ts';
import { formatLength, type Units } from '../../base/units.ts';
import { passName } from '../../plan/names.ts';
import { entity, type Plan, settings } from '../../plan/plan.ts';
import { type CostLine, costLines } from '../../results/run-cost.ts';
import type { Run } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { crossingLabel, partLabel } from './run-sum.ts';

export interface WhyLine {
  readonly label: string;
  /** How its cost comes about: `84'-3" × 1.2, at 9'-4"`. */
  readonly detail: string;
  /** Equivalent mm, rounded so that the lines as they are shown add up to the cost as it is shown. */
  readonly cost: number;
  readonly shown: string;
}

/** Why a run goes the way that it goes, in the job's units. */
export interface RunWhy {
  readonly lines: readonly WhyLine[];
  readonly cost: string;
  readonly path: string;
  /** What a pin makes it weigh more; null without one. */
  readonly pin: string | null;
}

/**
 * What the search weighed for a run, line by line.
 *
 * @param plan the plan that the run was found in
 */
export function runWhy(plan: Plan, run: Run, units: Units): RunWhy {
  const { bendPrice } = settings(plan);
  const show = (mm: number) => formatLength(mm, units);
  const lines = costLines(run, bendPrice);
  const rounded = apportion(
    lines.map(({ cost }) => cost),
    shownStep(units),
  );
  return {
    lines: lines.map((line, i) => ({
      ...wordsOf(plan, run, line, show),
      cost: rounded[i]!,
      shown: show(rounded[i]!),
    })),
    cost: show(run.cost),
    path: show(run.path),
    pin: run.pinned
      ? t('why.pin', {
          pin: pinNamed(plan, run.pinned.pin),
          cost: show(run.pinned.cost),
        })
      : null,
  };
}

function pinNamed(plan: Plan, id: string): string {
  const pin = entity(plan, 'pins', id);
  return pin ? passName(plan, 'pins', pin) : t('thing.gone');
}

type Show = (mm: number) => string;

function wordsOf(plan: Plan, run: Run, line: CostLine, show: Show) {
  switch (line.of) {
    case 'way':
      return { label: partLabel(plan, run, line), detail: wayDetail(plan, line, show) };
    case 'crossing': {
      const { crossing } = line;
      const way = crossing.pathway && entity(plan, 'pathways', crossing.pathway);
      const by = way && t('why.by', { way: way.name || t(`pathway.${way.kind}`).toLowerCase() });
      const price = t(line.cost > 0 ? 'why.price' : 'why.free');
      return { label: crossingLabel(plan, crossing), detail: by ? `${by}, ${price}` : price };
    }
    case 'bends':
      return {
        label: t.count('why.bends', line.count),
        detail: t('why.each', { price: show(line.price) }),
      };
    case 'rounding':
      return { label: t('why.rounding'), detail: '' };
  }
}

function wayDetail(plan: Plan, line: Extract<CostLine, { of: 'way' }>, show: Show): string {
  const { elevation, level, length, factor } = line;
  const times = t('why.length', { length: show(length), factor: factor / 100 });
  if (elevation === null) return times;
  const floor = entity(plan, 'levels', level)?.elevation ?? 0;
  return `${times}, ${t('why.at', { elevation: show(elevation - floor) })}`;
}

/** The dearest lines of a run in their order, and the rest in one. */
export function dearest(lines: readonly WhyLine[], most: number, units: Units): readonly WhyLine[] {
  const some = lines.filter(({ cost }) => cost !== 0);
  if (some.length <= most) return some;
  const kept = new Set([...some].sort((a, b) => b.cost - a.cost).slice(0, most - 1));
  const rest = some.filter((line) => !kept.has(line));
  const cost = rest.reduce((sum, line) => sum + line.cost, 0);
  const label = t.count('why.more', rest.length);
  return [
    ...some.filter((line) => kept.has(line)),
    { label, detail: '', cost, shown: formatLength(cost, units) },
  ];
}
