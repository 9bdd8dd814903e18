import { msg } from '../base/message.ts';
import { passName } from '../plan/names.ts';
import type { Level, Plan, Riser } from '../plan/plan.ts';
import type { Remark, Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

/** A riser's upper level lies no higher than its lower one, so that its length means nothing. */
export const riserLevels: Rule = {
  id: 'riser-levels',
  title: msg('A riser does not lead up'),
  severity: 'warning',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan }) =>
    [...plan.tables.risers.values()].flatMap((riser) => {
      const { levels } = plan.tables;
      const [lower, upper] = [levels.get(riser.level), levels.get(riser.upper)];
      if (!lower || !upper || upper.elevation > lower.elevation) return [];
      return [remark(plan, riser, lower, upper)];
    }),
};

function remark(plan: Plan, riser: Riser, lower: Level, upper: Level): Remark {
  const below = upper.elevation < lower.elevation;
  const names = {
    riser: passName(plan, 'risers', riser),
    upper: upper.name || upper.id,
    lower: lower.name || lower.id,
  };
  return {
    subjects: [{ table: 'risers', id: riser.id }],
    at: { level: riser.level, point: riser.at },
    message: below
      ? msg('From {lower} up to {upper} leads {riser}, but {upper} lies below {lower}.', names)
      : msg('From {lower} up to {upper} leads {riser}, but their floors are at one height.', names),
    remedy: msg('Set how high the floor of each level lies, or let the riser lead the other way.'),
    fix: below
      ? {
          command: 'edit',
          args: {
            table: 'risers',
            id: riser.id,
            fields: { level: upper.id, upper: lower.id },
          },
          label: msg('Let it lead from {upper} to {lower}', {
            upper: names.upper,
            lower: names.lower,
          }),
        }
      : null,
  };
}
