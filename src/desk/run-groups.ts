import { compareLabels } from '../base/labels.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { zoneAt } from '../plan/areas.ts';
import { levelsUp } from '../plan/levels.ts';
import type { Jack, Plan } from '../plan/plan.ts';
import { t } from '../text/index.ts';
import { kindName } from './names.ts';

/** Runs that somebody may mean together. */
export interface RunGroup {
  readonly key: string;
  /** What it is, with how many runs it has. */
  readonly label: string;
  readonly jacks: readonly string[];
}

/** All runs, then those of each level where there are several, of each service area, room and kind of device. */
export function runGroups(plan: Plan, kinds: KindRegistry): RunGroup[] {
  const groups = new Map<string, { name: string; jacks: Jack[] }>();
  const put = (key: string, name: string, jack: Jack) => {
    const group = groups.get(key);
    if (group) group.jacks.push(jack);
    else groups.set(key, { name, jacks: [jack] });
  };
  const jacks = [...plan.tables.jacks.values()].sort(
    (a, b) => compareLabels(a.label, b.label) || compareLabels(a.id, b.id),
  );
  for (const jack of jacks) put('all', t('runs.group-all'), jack);
  if (plan.tables.levels.size > 1)
    for (const { id, name } of levelsUp(plan))
      for (const jack of jacks)
        if (plan.tables.outlets.get(jack.outlet)!.level === id) put(`level ${id}`, name, jack);
  for (const jack of jacks) {
    const area = jack.label.charAt(0);
    put(`area ${area}`, t('runs.group-area', { area }), jack);
  }
  for (const jack of jacks) {
    const { level, at } = plan.tables.outlets.get(jack.outlet)!;
    const zone = zoneAt(plan, level, at);
    if (zone && zone.name !== '') put(`room ${zone.id}`, zone.name, jack);
  }
  for (const jack of jacks) {
    const kind = jack.device === null ? null : plan.tables.devices.get(jack.device)!.kind;
    if (kind !== null) put(`kind ${kind}`, kindName(plan, kinds, kind), jack);
  }
  return [...groups].map(([key, group]) => ({
    key,
    label: t('runs.group', {
      name: group.name,
      runs: t.count('runs.count', group.jacks.length),
    }),
    jacks: group.jacks.map((jack) => jack.id),
  }));
}
