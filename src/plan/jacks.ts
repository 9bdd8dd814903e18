import type { Id } from '../base/ids.ts';
import { compareLabels } from '../base/labels.ts';
import { type Jack, jacksOf, type Plan, type Ref } from './plan.ts';

/** The jacks that rows stand for: of devices, in outlets, that pass a pin, or themselves; each once, by their labels. */
export function jacksOfRefs(plan: Plan, refs: readonly Ref[]): Id[] {
  const found = new Map<Id, Jack>();
  for (const ref of refs) for (const jack of jacksOfRef(plan, ref)) found.set(jack.id, jack);
  return [...found.values()]
    .sort((a, b) => compareLabels(a.label, b.label) || compareLabels(a.id, b.id))
    .map((jack) => jack.id);
}

function jacksOfRef(plan: Plan, { table, id }: Ref): readonly Jack[] {
  const all = plan.tables.jacks;
  const device = table === 'devices' ? plan.tables.devices.get(id) : undefined;
  if (device) return jacksOf(plan, device);
  const own = table === 'jacks' ? all.get(id) : undefined;
  if (own) return [own];
  if (table !== 'outlets' && table !== 'pins') return [];
  return [...all.values()].filter((jack) => (table === 'outlets' ? jack.outlet : jack.pin) === id);
}
