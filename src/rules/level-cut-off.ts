import type { Id } from '../base/ids.ts';
import { msg } from '../base/message.ts';
import { risersOn } from '../plan/levels.ts';
import { onLevel, type Plan } from '../plan/plan.ts';
import type { Rule } from './rule.ts';
import { COMMON_PRACTICE } from './sources.ts';

/** A level holds jacks, but no closet and no way to a level that has one. */
export const levelCutOff: Rule = {
  id: 'level-cut-off',
  title: msg('A level has no closet and no riser'),
  severity: 'error',
  source: COMMON_PRACTICE,
  limits: [],
  check: ({ plan }) =>
    [...plan.tables.levels.values()].flatMap((level) => {
      const jacks = [...plan.tables.jacks.values()].filter(
        (jack) => plan.tables.outlets.get(jack.outlet)?.level === level.id,
      );
      if (jacks.length === 0 || !isCutOff(plan, level.id)) return [];
      return [
        {
          subjects: [{ table: 'levels', id: level.id }],
          at: null,
          message: msg(
            '{level} has no closet, and no riser leads from it. Jacks that wait: {count}.',
            {
              level: level.name || 'A level',
              count: jacks.length,
            },
          ),
          remedy: msg(
            'Place a riser to a level with a closet, or a closet here. Until then the price leaves out their cable and hours.',
          ),
          fix: null,
        },
      ];
    }),
};

/** Whether a plan with closets has none on this level, and no riser to or from it. */
export const isCutOff = (plan: Plan, level: Id): boolean =>
  plan.tables.closets.size > 0 &&
  onLevel(plan, 'closets', level).length === 0 &&
  risersOn(plan, level).length === 0;
