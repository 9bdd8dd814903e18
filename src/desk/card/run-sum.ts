import { apportion, shownStep } from '../../base/apportion.ts';
import { formatLength, type Units } from '../../base/units.ts';
import { type Allowances, allowanceSource, allowancesOf } from '../../plan/allowances.ts';
import { entity, type Plan, settings } from '../../plan/plan.ts';
import type { Crossing, PartKind, Run, RunPart } from '../../results/types.ts';
import { t } from '../../text/index.ts';

/** What a part of the sum belongs to: the three colours of the ladder. */
export type PartGroup = 'along' | 'vertical' | 'slack';

const GROUP: Readonly<Record<PartKind, PartGroup>> = {
  up: 'vertical',
  across: 'along',
  step: 'vertical',
  down: 'vertical',
  riser: 'vertical',
  'outlet-slack': 'slack',
  'field-loop': 'slack',
  'closet-loop': 'slack',
};

export interface SumLine {
  readonly label: string;
  readonly group: PartGroup;
  /** mm, rounded so that the lines as they are shown add up to the cable as it is shown. */
  readonly length: number;
  readonly shown: string;
}

/** A length against what it may be. */
export interface Against {
  readonly label: string;
  readonly length: string;
  readonly limit: string;
  /** Length over limit. */
  readonly share: number;
}

export interface RunSum {
  readonly lines: readonly SumLine[];
  readonly cable: string;
  /** What is ordered for it, and by what waste. */
  readonly order: string;
  readonly orderWords: string;
  readonly cords: string;
  readonly channel: string;
  /** The cable against its own limit, the channel against the channel's. */
  readonly link: Against;
  readonly whole: Against;
}

/** The sum of a run, line by line, in the job's units; lines that would show nothing are left out. */
export function runSum(plan: Plan, run: Run, units: Units): RunSum {
  const lines = gathered(plan, run);
  const rounded = apportion(
    lines.map((line) => line.length),
    shownStep(units),
  );
  const show = (mm: number) => formatLength(mm, units);
  const { channelLimit } = settings(plan);
  return {
    lines: lines
      .map((line, i) => ({ ...line, length: rounded[i]!, shown: show(rounded[i]!) }))
      .filter((line) => line.length > 0),
    cable: show(run.cable),
    order: show(run.order),
    orderWords: orderWords(plan, run),
    cords: show(run.channel - run.cable),
    channel: show(run.channel),
    link: against(t('run.link'), run.cable, run.limit, show),
    whole: against(t('run.channel'), run.channel, channelLimit, show),
  };
}

/** The parts in their order, those of nothing left out, and neighbours that read alike put together. */
function gathered(plan: Plan, run: Run): { label: string; group: PartGroup; length: number }[] {
  const lines: { label: string; group: PartGroup; length: number }[] = [];
  for (const part of run.parts) {
    if (part.length <= 0) continue;
    const label = partLabel(plan, run, part);
    const last = lines.at(-1);
    if (last?.label === label) last.length += part.length;
    else lines.push({ label, group: GROUP[part.kind], length: part.length });
  }
  return lines;
}

const against = (
  label: string,
  length: number,
  limit: number,
  show: (mm: number) => string,
): Against => ({ label, length: show(length), limit: show(limit), share: length / limit });

/** A part of a run's length in words. */
export function partLabel(
  plan: Plan,
  run: Run,
  part: Pick<RunPart, 'kind' | 'zone' | 'pathway'>,
): string {
  const way = part.pathway === null ? undefined : entity(plan, 'pathways', part.pathway);
  if (way) return t('run.part.way', { way: way.name || t(`pathway.${way.kind}`).toLowerCase() });
  if (part.kind === 'across') return acrossLabel(plan, part);
  if (part.kind === 'up') return t(upKey(plan, run));
  const words = t(`run.part.${part.kind}`);
  const allowance = ALLOWANCE[part.kind];
  return allowance ? ownWords(plan, run, allowance, words) : words;
}

/** The parts that an allowance decides. */
const ALLOWANCE: Partial<Record<PartKind, keyof Allowances>> = {
  'outlet-slack': 'outletSlack',
  'field-loop': 'fieldLoop',
  'closet-loop': 'closetLoop',
};

/** Words for an allowance, with who says so where that is not the job. */
function ownWords(plan: Plan, run: Run, field: keyof Allowances, words: string): string {
  const jack = entity(plan, 'jacks', run.jack);
  const source = jack ? allowanceSource(plan, jack, field) : 'job';
  return source === 'job' ? words : t(`run.own.${source}`, { part: words });
}

/** What is added for waste, with who says so where that is not the job. */
function orderWords(plan: Plan, run: Run): string {
  const jack = entity(plan, 'jacks', run.jack);
  const waste = jack ? allowancesOf(plan, jack).wastePercent : settings(plan).wastePercent;
  return ownWords(plan, run, 'wastePercent', t('run.order', { waste: `${waste} %` }));
}

function acrossLabel(plan: Plan, part: Pick<RunPart, 'zone'>): string {
  const zone = part.zone === null ? undefined : entity(plan, 'zones', part.zone);
  if (!zone) return t('run.part.across');
  return t('run.part.across-room', {
    room: zone.name || t('room.area', { area: zone.area }),
  });
}

function upKey(plan: Plan, run: Run) {
  const outlet = entity(plan, 'outlets', run.outlet);
  const wall = outlet?.wall ? entity(plan, 'walls', outlet.wall) : undefined;
  if (wall?.construction === 'framed') return 'run.part.up-inside';
  if (outlet?.mount === 'wall') return 'run.part.up-wall';
  return outlet?.mount === 'pole' ? 'run.part.up-pole' : 'run.part.up';
}

/** The sum in one line, as it is read out: `up the wall 7'-10" + … = 107'-6"`. */
export const sumInWords = (sum: RunSum): string =>
  `${sum.lines.map((line) => `${line.label} ${line.shown}`).join(' + ')} = ${sum.cable}`;

/** The holes that a run needs, each in words; crossings without work are left out. */
export const crossingWords = (plan: Plan, run: Run): string[] =>
  run.crossings
    .filter((crossing) => crossing.work !== 'none' || crossing.firestop)
    .map((crossing) => crossingLabel(plan, crossing));

/** What passing a wall takes, in words. */
export function crossingLabel(plan: Plan, { wall: id, work, firestop }: Crossing): string {
  const wall = entity(plan, 'walls', id);
  const look = wall ? t(`wall.${wall.construction}`).toLowerCase() : t('thing.gone');
  const hole = t(`crossing.${work}`, { wall: look });
  return firestop ? `${hole}, ${t('crossing.firestop')}` : hole;
}
