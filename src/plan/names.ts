import { cutShort } from '../base/cut-short.ts';
import type { Id } from '../base/ids.ts';
import type { KindFacts } from './kind-facts.ts';
import {
  type Closet,
  type Device,
  jacksOf,
  type Pathway,
  type Pin,
  type Plan,
  type Riser,
} from './plan.ts';

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

/** What a pathway is called: its name, or its kind with its id while nobody named it. */
export const pathwayName = ({ name, kind, id }: Pathway): string =>
  name || `${kind.replace('-', ' ')} ${id}`;

/** What a riser or a pin is called: its name, with its id where another bears the same. */
export function passName(plan: Plan, table: 'risers' | 'pins', row: Riser | Pin): string {
  return unlike(plan.tables[table].values(), row, table === 'risers' ? 'riser' : 'pin');
}

/** What a closet is called on lists: its name, with its id where another bears the same. */
export const closetName = (plan: Plan, closet: Closet): string =>
  unlike(plan.tables.closets.values(), closet, 'closet');

/** A name that tells a row from the others of its table. */
function unlike(
  rows: Iterable<{ readonly id: Id; readonly name: string }>,
  { id, name }: { readonly id: Id; readonly name: string },
  thing: string,
): string {
  if (name === '') return `${thing} ${id}`;
  for (const row of rows) if (row.id !== id && row.name === name) return `${name} ${id}`;
  return name;
}

/** A name like one that is given, which none of the rows has: `Riser`, `Riser 2`. No name at all stays none. */
export function freeName(rows: Iterable<{ readonly name: string }>, like: string): string {
  if (like === '') return '';
  // Room for the number within what the schema takes.
  const stem = cutShort(like.replace(/ \d+$/, ''), 390);
  const taken = new Set([...rows].map(({ name }) => name));
  let n = 1;
  const named = () => (n === 1 ? stem : `${stem} ${n}`);
  while (taken.has(named())) n += 1;
  return named();
}

/** A name for one more pin: the next short number, `P1`, `P2`; like one that somebody gave where that is given. */
export function freePinName(rows: Iterable<{ readonly name: string }>, like = 'P1'): string {
  if (!/^P\d+$/.test(like)) return freeName(rows, like);
  const taken = new Set([...rows].map(({ name }) => name));
  let n = 1;
  while (taken.has(`P${n}`)) n += 1;
  return `P${n}`;
}
