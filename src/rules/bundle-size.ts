import { groupBy } from '../base/group.ts';
import { msg } from '../base/message.ts';
import { pathwayName } from '../plan/names.ts';
import type { Plan } from '../plan/plan.ts';
import type { Way } from '../results/types.ts';
import type { Remark, Rule } from './rule.ts';
import { UNIVERSITY_WIRING } from './sources.ts';
import { atStart } from './words.ts';

/** Cables in one bundle, and those from which hooks give way to a tray. */
const BUNDLE = 24;
const TRAY_FROM = 40;

/** More cables hang together on supports than make a good bundle. */
export const bundleSize: Rule = {
  id: 'bundle-size',
  title: msg('Many cables hang together on supports'),
  severity: 'note',
  source: { document: UNIVERSITY_WIRING, clause: 'bundle size' },
  limits: [
    {
      name: 'cables in one bundle on supports',
      value: `${BUNDLE}`,
      clause: `no more than 24 in a bundle; from ${TRAY_FROM} in one area, tray or conduit instead of hooks`,
    },
  ],
  check: ({ plan, ways }) =>
    [
      ...groupBy(
        ways.filter((way) => hangs(plan, way)),
        lineOf,
      ).values(),
    ]
      .map((line) => line.reduce((a, b) => (b.jacks.length > a.jacks.length ? b : a)))
      .filter((way) => way.jacks.length > BUNDLE)
      .map((way) => remark(plan, way)),
};

/** On hooks, drawn ones or those of free travel; level stretches only. */
function hangs(plan: Plan, { pathway, from, to }: Way): boolean {
  const kind = pathway === null ? 'hook-line' : plan.tables.pathways.get(pathway)?.kind;
  return kind === 'hook-line' && (from[0] !== to[0] || from[1] !== to[1]);
}

const lineOf = (way: Way): string => `${way.level} ${way.pathway ?? ''}`;

function remark(plan: Plan, way: Way): Remark {
  const count = way.jacks.length;
  const pathway = way.pathway === null ? undefined : plan.tables.pathways.get(way.pathway);
  const level = plan.tables.levels.get(way.level);
  const where = pathway ? pathwayName(pathway) : level?.name || 'a level';
  return {
    subjects: pathway
      ? [{ table: 'pathways', id: pathway.id }]
      : [{ table: 'levels', id: way.level }],
    at: {
      level: way.level,
      point: [Math.round((way.from[0] + way.to[0]) / 2), Math.round((way.from[1] + way.to[1]) / 2)],
    },
    message: msg('{where}: up to {count} cables lie together on supports.', {
      where: atStart(where),
      count,
    }),
    remedy:
      count >= TRAY_FROM
        ? msg('Draw a tray or conduit for them: hooks are for fewer.')
        : msg(
            'Lay them as {bundles} bundles, each on hooks of its own size, so that none is crushed or grows warm inside.',
            { bundles: Math.ceil(count / BUNDLE) },
          ),
    fix: null,
  };
}
