import { msg } from '../base/message.ts';
import type { Finding } from '../results/types.ts';
import { builtElsewhere } from './built-elsewhere.ts';
import { builtOffEstimate } from './built-off-estimate.ts';
import { builtOffMarks } from './built-off-marks.ts';
import { builtTooLong } from './built-too-long.ts';
import { bundleSize } from './bundle-size.ts';
import { closetMissing } from './closet-missing.ts';
import { closetPorts } from './closet-ports.ts';
import { conduitFill } from './conduit-fill.ts';
import { conduitPull } from './conduit-pull.ts';
import { conduitRadius } from './conduit-radius.ts';
import { cordReach } from './cord-reach.ts';
import { cordsTooLong } from './cords-too-long.ts';
import { crowdedLevel } from './crowded-level.ts';
import { deviceWithoutJack } from './device-without-jack.ts';
import { doubledLabel } from './doubled-label.ts';
import { doubledPort } from './doubled-port.ts';
import { floorOpening } from './floor-opening.ts';
import { inKeepout } from './in-keepout.ts';
import { jackWithoutDevice } from './jack-without-device.ts';
import { levelCutOff } from './level-cut-off.ts';
import { longerThanBox } from './longer-than-box.ts';
import { noWallInReach } from './no-wall-in-reach.ts';
import { noWay } from './no-way.ts';
import { outletInOpening } from './outlet-in-opening.ts';
import { pinDetour } from './pin-detour.ts';
import { powerReach } from './power-reach.ts';
import { ratedWall } from './rated-wall.ts';
import { riserLevels } from './riser-levels.ts';
import type { Rule, RuleContext, RuleSource } from './rule.ts';
import { runNearLimit } from './run-near-limit.ts';
import { runTooLong } from './run-too-long.ts';
import { scaleNotSet } from './scale-not-set.ts';
import { scaleOff } from './scale-off.ts';
import { scaleUnchecked } from './scale-unchecked.ts';
import { sealedWall } from './sealed-wall.ts';
import { testFailed } from './test-failed.ts';
import { unusedPathway } from './unused-pathway.ts';

/** Every rule, in the order in which findings are listed within a severity. */
export const rules: readonly Rule[] = [
  closetMissing,
  scaleNotSet,
  scaleOff,
  levelCutOff,
  noWay,
  runTooLong,
  builtTooLong,
  testFailed,
  deviceWithoutJack,
  cordReach,
  closetPorts,
  doubledLabel,
  doubledPort,
  builtOffMarks,
  scaleUnchecked,
  riserLevels,
  runNearLimit,
  cordsTooLong,
  longerThanBox,
  conduitPull,
  conduitFill,
  powerReach,
  jackWithoutDevice,
  inKeepout,
  outletInOpening,
  noWallInReach,
  crowdedLevel,
  conduitRadius,
  bundleSize,
  pinDetour,
  builtOffEstimate,
  builtElsewhere,
  unusedPathway,
  ratedWall,
  floorOpening,
  sealedWall,
];

const RANK = { error: 0, warning: 1, note: 2 } as const;

/**
 * What the rules find in a plan: errors first, then warnings and notes, each in the order of the rules.
 * A rule that throws becomes one visible finding, and the others stand.
 */
export function checkRules(context: RuleContext, which: readonly Rule[] = rules): Finding[] {
  const findings = which.flatMap((rule) => findingsOf(rule, context));
  return findings.sort((a, b) => RANK[a.severity] - RANK[b.severity]);
}

function findingsOf(rule: Rule, context: RuleContext): Finding[] {
  const source = sourceText(rule.source);
  try {
    return rule
      .check(context)
      .map((remark) => ({ rule: rule.id, severity: rule.severity, source, ...remark }));
  } catch (error) {
    return [brokenRule(rule, source, error)];
  }
}

const sourceText = (source: RuleSource): string =>
  source.clause === '' ? source.document : `${source.document}, ${source.clause}`;

function brokenRule(rule: Rule, source: string, error: unknown): Finding {
  return {
    rule: rule.id,
    severity: 'error',
    source,
    subjects: [],
    at: null,
    message: msg('The check "{title}" broke off: {why}', {
      title: rule.title.text,
      why: error instanceof Error ? error.message : String(error),
    }),
    remedy: msg('The other checks stand. Look after this point yourself, and report the fault.'),
    fix: null,
  };
}
