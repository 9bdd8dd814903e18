import { renderMessage } from '../base/message.ts';
import { job, type Plan } from '../plan/plan.ts';
import { riserLength, risersOf } from '../results/risers.ts';
import type { ClosetStudy, Finding, Run, Survey } from '../results/types.ts';
import {
  type LevelUse,
  levelUses,
  type PinUse,
  pinUses,
  type RiserUse,
  riserUses,
} from './building.ts';

/** A survey as plain JSON for scripts: ids as in the plan file, lengths in whole mm, money in whole cents. */
export function report(plan: Plan, survey: Survey, study: ClosetStudy | null = null) {
  const { totals } = survey;
  const { name, revision, units } = job(plan);
  return {
    job: { name, revision, units },
    levels: levelUses(plan, survey.runs).map(levelRow),
    risers: riserUses(plan, survey.runs).map(riserRow),
    pins: pinUses(plan, survey.runs).map(pinRow),
    runs: survey.runs.map(runRow),
    totals: {
      cable_mm: totals.cable,
      order_mm: totals.order,
      jacks: totals.jacks,
      devices: totals.devices,
      boxes: totals.boxes,
      price_cents: totals.priceCents,
    },
    findings: survey.findings.map((finding) => findingRow(plan, finding)),
    ...(study === null ? {} : { one_more_closet: closetRow(plan, study) }),
  };
}

const closetRow = (plan: Plan, { places, best }: ClosetStudy) => ({
  places,
  best: best && {
    level: best.level,
    at: best.at,
    room: best.zone,
    saves_mm: best.saves,
    nearer: best.nearer.map((id) => plan.tables.jacks.get(id)!.label),
    relieved: best.relieved.map((id) => plan.tables.jacks.get(id)!.label),
    link_mm: best.link,
  },
});

const levelRow = ({ level, runs, closets }: LevelUse) => ({
  id: level.id,
  name: level.name,
  elevation_mm: level.elevation,
  jacks: runs.length,
  closets,
});

const riserRow = ({ riser, runs }: RiserUse) => ({
  id: riser.id,
  name: riser.name,
  level: riser.level,
  upper: riser.upper,
  cables: runs.map((run) => run.label),
});

const pinRow = ({ pin, runs, longer }: PinUse) => ({
  id: pin.id,
  name: pin.name,
  level: pin.level,
  cables: runs.map((run) => run.label),
  longer_mm: longer,
});

const runRow = (run: Run) => ({
  label: run.label,
  device: run.device,
  closet: run.closet,
  level: run.level,
  across_mm: run.across,
  vertical_mm: run.vertical,
  riser_mm: riserLength(run),
  slack_mm: run.slack,
  path_mm: run.path,
  cable_mm: run.cable,
  order_mm: run.order,
  channel_mm: run.channel,
  limit_mm: run.limit,
  status: run.status,
  crossings: run.crossings.map(({ wall, work, firestop, at }) => ({ wall, work, firestop, at })),
  points: run.points,
  risers: risersOf(run),
  pin: run.pinned && {
    id: run.pinned.pin,
    longer_mm: run.pinned.path,
    cost_mm: run.pinned.cost,
  },
});

const findingRow = (plan: Plan, finding: Finding) => ({
  rule: finding.rule,
  severity: finding.severity,
  subject: finding.subjects.map(({ table, id }) => `${table}.${id}`).join(', '),
  message: renderMessage(finding.message, job(plan).units),
  remedy: renderMessage(finding.remedy, job(plan).units),
  source: finding.source,
});
