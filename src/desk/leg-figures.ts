import { formatScale } from '../base/drawing-scale.ts';
import { formatTotal, type Units } from '../base/units.ts';
import { LEGS, type Leg } from '../board/session.ts';
import { hasScale, ratioOf } from '../plan/picture-place.ts';
import { job, type Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import { formatCount, formatMoneyShort, t } from '../text/index.ts';
import { isBlank, isUnplaced } from './blank.ts';
import { type ScaleOutcome, scaleOutcome } from './scale-outcome.ts';

/** How a leg stands: `todo` asks for something, `warn` is wrong, `good` is done. */
export type LegTone = 'plain' | 'todo' | 'warn' | 'good';

export interface LegFigure {
  readonly leg: Leg;
  readonly name: string;
  /** What the leg says of the job at this moment. */
  readonly figure: string;
  readonly tone: LegTone;
}

/** What the job line says beyond plan and survey. */
export interface LegContext {
  readonly plan: Plan;
  /** Null while no survey has arrived. */
  readonly survey: Survey | null;
  /** Pages that would be printed; null while nobody has counted. */
  readonly pages: number | null;
}

type Said = Pick<LegFigure, 'figure' | 'tone'>;
const plain = (figure: string): Said => ({ figure, tone: 'plain' });

/** The seven legs of a job with their live figures, in their order. */
export function legFigures(given: LegContext): readonly LegFigure[] {
  // Of a blank job nothing is all clear and nothing costs nothing: there is nothing to say yet.
  const context = isBlank(given.plan) ? { ...given, survey: null, pages: null } : given;
  const say: Readonly<Record<Leg, Said>> = {
    base: baseFigure(context.plan),
    rooms: plain(formatCount(context.plan.tables.zones.size)),
    devices: plain(devicesFigure(context.plan)),
    runs: runsFigure(context.survey, job(context.plan).units),
    checks: checksFigure(context),
    price: { figure: priceFigure(context), tone: lostRuns(context.survey) > 0 ? 'warn' : 'plain' },
    print: plain(context.pages === null ? '-' : t.count('leg.sheets', context.pages)),
  };
  return LEGS.map((leg) => ({ leg, name: t(`leg.${leg}`), ...say[leg] }));
}

/** The background that matters most: one without a scale before one whose check is off before the rest. */
function baseFigure(plan: Plan): Said {
  const backgrounds = [...plan.tables.backgrounds.values()];
  if (backgrounds.length === 0)
    return plain(t(isBlank(plan) ? 'leg.base.blank' : 'leg.base.drawn'));
  if (!backgrounds.every(hasScale)) return { figure: t('leg.base.set-scale'), tone: 'todo' };
  const outcomes = backgrounds.map(scaleOutcome).filter((o): o is ScaleOutcome => o !== null);
  const worst = outcomes.reduce<ScaleOutcome | null>(
    (w, o) => (w === null || Math.abs(o.error) > Math.abs(w.error) ? o : w),
    null,
  );
  if (worst?.verdict === 'off')
    return { figure: t('leg.base.off', { by: worst.by }), tone: 'warn' };
  const printed = commonScale(plan);
  if (outcomes.length < backgrounds.length) return plain(printed ?? t('leg.base.set'));
  return { figure: printed ?? t('leg.base.checked', { by: worst?.by ?? '' }), tone: 'good' };
}

/** The scale of the sheets, where all that are known agree in it. */
function commonScale(plan: Plan): string | null {
  const { units } = job(plan);
  const ratios = [...plan.tables.backgrounds.values()].map(ratioOf).filter((r) => r !== null);
  const names = new Set(ratios.map((ratio) => formatScale(ratio, units)));
  const [name] = names;
  return names.size === 1 ? (name ?? null) : null;
}

function devicesFigure(plan: Plan): string {
  const devices = formatCount(plan.tables.devices.size);
  const jacks = plan.tables.jacks.size;
  return jacks === 0 ? devices : `${devices} · ${t.count('leg.jacks', jacks, formatCount(jacks))}`;
}

/** Runs without a way home; neither length nor price holds them. */
const lostRuns = (survey: Survey | null): number =>
  survey?.runs.filter((run) => run.status === 'unroutable').length ?? 0;

function runsFigure(survey: Survey | null, units: Units): Said {
  if (!survey) return plain('-');
  const total = formatTotal(survey.totals.cable, units);
  return lostRuns(survey) === 0 ? plain(total) : { figure: total, tone: 'warn' };
}

/** A total of nothing is not said as a price, unless there is something in it after all. */
function priceFigure({ plan, survey }: LegContext): string {
  if (!survey) return '-';
  const { totalCents, currency } = survey.price;
  return totalCents === 0 && isUnplaced(plan)
    ? t('leg.none')
    : formatMoneyShort(totalCents, currency);
}

function checksFigure({ plan, survey }: LegContext): Said {
  if (!survey) return plain('-');
  const fix = survey.findings.filter((f) => f.severity === 'error').length;
  if (fix > 0) return { figure: t('leg.checks.fix', { count: formatCount(fix) }), tone: 'warn' };
  const look = survey.findings.filter((f) => f.severity === 'warning').length;
  if (look > 0) return { figure: t('leg.checks.look', { count: formatCount(look) }), tone: 'todo' };
  if (isUnplaced(plan)) return plain(t('leg.none'));
  return { figure: t('leg.checks.clear'), tone: 'good' };
}
