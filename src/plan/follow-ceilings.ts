import type { Id } from '../base/ids.ts';
import { ceilingAt } from './areas.ts';
import type { Draft } from './change.ts';
import type { KindFacts } from './kind-facts.ts';
import { onLevel, type Plan } from './plan.ts';

/**
 * After rooms or their ceilings changed, or things came to another room: what hung on the ceiling over it, a device of
 * its kind or an outlet, hangs on the one that is over it now. What somebody put at another height stays there.
 *
 * @param only keys of the rows to look at; all of the level where it is left out
 */
export function followCeilings(
  draft: Draft,
  before: Plan,
  level: Id,
  kinds: ReadonlyMap<string, KindFacts>,
  only?: { has(key: string): boolean },
): void {
  const after = draft.plan;
  const hung = {
    devices: onLevel(after, 'devices', level).filter(
      ({ kind, host }) => host === null && kinds.get(kind)?.mount === 'ceiling',
    ),
    outlets: onLevel(after, 'outlets', level).filter(({ mount }) => mount === 'ceiling'),
  };
  for (const table of ['devices', 'outlets'] as const)
    for (const { id, at, height, locked } of hung[table]) {
      const there = before.tables[table].get(id);
      if (!there || locked || (only && !only.has(`${table}/${id}`))) continue;
      const was = ceilingAt(before, level, there.at).height;
      const is = ceilingAt(after, level, at).height;
      if (was !== is && height === was) draft.patch(table, id, { height: is });
    }
}
