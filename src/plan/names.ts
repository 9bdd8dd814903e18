import type { Id } from '../base/ids.ts';
import type { KindFacts } from './kind-facts.ts';
import { type Device, jacksOf, type Plan } from './plan.ts';

/** The kind of a device in words; its stored name where the registry does not know it. */
export const kindName = (kinds: ReadonlyMap<string, KindFacts>, device: Device): string =>
  kinds.get(device.kind)?.label.text ?? device.kind;

/**
 * What a device is called in a sentence: the name that somebody gave it, or its kind with the label of its jack, or
 * with its id while it has none.
 */
export function deviceName(
  plan: Plan,
  kinds: ReadonlyMap<string, KindFacts>,
  device: Device,
): string {
  if (device.name !== '') return device.name;
  return `${kindName(kinds, device)} ${jacksOf(plan, device)[0]?.label ?? device.id}`;
}

/** The devices that a jack serves: its own, and those that share it. */
export function devicesAt(plan: Plan, device: Id): Device[] {
  const all = [...plan.tables.devices.values()];
  return all.filter((d) => d.id === device || d.host === device);
}
