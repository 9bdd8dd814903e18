import { renderMessage } from '../base/message.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { jacksOfRefs } from '../plan/jacks.ts';
import { job, type Plan, type Ref } from '../plan/plan.ts';
import type { Finding } from '../results/types.ts';
import { t } from '../text/index.ts';

/** What a thing is called: the name that somebody gave it, else what it is. */
export function nameOf(plan: Plan, kinds: KindRegistry, ref: Ref): string {
  const row = plan.tables[ref.table].get(ref.id) as Readonly<Record<string, unknown>> | undefined;
  if (!row) return t('thing.gone');
  const given = row.name;
  if (typeof given === 'string' && given !== '') return given;
  if (ref.table === 'devices') return kindName(plan, kinds, String(row.kind));
  if (ref.table === 'jacks') return t('thing.jack', { label: String(row.label) });
  if (ref.table === 'pathways') return t(`pathway.${plan.tables.pathways.get(ref.id)!.kind}`);
  if (ref.table === 'walls') return t(`wall.${plan.tables.walls.get(ref.id)!.construction}`);
  if (ref.table === 'openings') return t(`opening.${plan.tables.openings.get(ref.id)!.kind}`);
  if (ref.table === 'notes') return plan.tables.notes.get(ref.id)!.text.split('\n')[0]!;
  if (ref.table === 'outlets') return t(`outlet.${plan.tables.outlets.get(ref.id)!.mount}`);
  return t(`thing.${ref.table}`);
}

/** What a kind of device is called; its own id where the registry does not know it. */
export function kindName(plan: Plan, kinds: KindRegistry, id: string): string {
  const kind = kinds.get(id);
  return kind ? renderMessage(kind.label, job(plan).units) : id;
}

/** The jacks that a thing has to do with: of a device, on an outlet, that pass a pin, the jack itself. */
export const jackIdsOf = (plan: Plan, ref: Ref): string[] => jacksOfRefs(plan, [ref]);

/** Findings about a thing, or about the jacks and outlets that serve it. */
export function findingsFor(plan: Plan, findings: readonly Finding[], ref: Ref): Finding[] {
  const about = new Map<string, Set<string>>([[ref.table, new Set([ref.id])]]);
  const add = (table: string, id: string): void => {
    const ids = about.get(table) ?? new Set();
    about.set(table, ids.add(id));
  };
  // What is wrong with a run is not a fault of the pin that it passes.
  for (const id of ref.table === 'pins' ? [] : jackIdsOf(plan, ref)) {
    add('jacks', id);
    if (ref.table === 'devices') add('outlets', plan.tables.jacks.get(id)!.outlet);
  }
  // Of thousands: no text is made for each.
  return findings.filter((f) => f.subjects.some((s) => about.get(s.table)?.has(s.id)));
}
