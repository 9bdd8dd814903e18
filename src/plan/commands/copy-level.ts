import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import { Draft } from '../change.ts';
import { labelParts, makeLabel, nextNumber } from '../labels.ts';
import { AREA_LETTERS, lettersTaken, levelsUp, risersOn } from '../levels.ts';
import { freeName, freePinName } from '../names.ts';
import { type AnyEntity, type Level, onLevel, type Plan, type Riser } from '../plan.ts';
import type { TableName } from '../schema.ts';
import type { Command } from './command.ts';
import { added, gone, isWords, putLevel, type Side } from './levels.ts';
import { lowerFirst } from './risers.ts';

/** Tables whose rows are copied as they stand. */
const BUILDING = [
  'backgrounds',
  'zones',
  'walls',
  'keepouts',
  'pathways',
  'notes',
  'dimensions',
] as const satisfies readonly TableName[];

/**
 * Copies a level to the top of the building or underneath it: its background pictures, rooms, walls with their
 * openings, keep-outs, pathways, notes and dimension lines; with `devices` also what is placed on it, with jacks,
 * closets and pins of their own. Its areas take letters that nobody has, while there are any, and the copies keep their
 * numbers; where letters run out the labels go on counting in the old ones.
 *
 * A riser goes on to the copy where it comes out on the level beside the copy; one that does not is left, and said.
 */
export const copyLevel: Command<{ level: Id; side: Side; devices: boolean; name?: string }> = (
  plan,
  { level: id, side, devices, name },
) => {
  const from = plan.tables.levels.get(id);
  if (!from) return { ok: false, why: gone };
  const draft = new Draft(plan);
  const letters = copiedLetters(plan, id, devices);
  const level = putLevel(draft, side, from, name === undefined ? {} : { name });
  if (isWords(level)) return { ok: false, why: level };
  draft.patch('levels', level.id, { area: letters.get(from.area)! });
  const ids = new Map<string, Id>();
  const copy = <T extends TableName>(table: T, row: AnyEntity, fields: object): void => {
    const fresh = draft.fresh(table);
    ids.set(`${table}/${row.id}`, fresh);
    draft.put(table, { ...row, ...fields, id: fresh } as never);
  };
  for (const table of BUILDING)
    for (const row of onLevel(plan, table, id))
      copy(table, row, {
        level: level.id,
        ...('area' in row ? { area: letters.get(row.area)! } : {}),
      });
  for (const opening of plan.tables.openings.values()) {
    const wall = ids.get(`walls/${opening.wall}`);
    if (wall !== undefined) copy('openings', opening, { wall });
  }
  const left = goOn(plan, draft, id, level, side);
  if (devices) copyPlaced(plan, draft, { from: id, to: level.id }, letters, { ids, copy });
  const outcome = added(draft, level, msg('Copy {name}', { name: from.name }));
  return left.length === 0 ? outcome : { ...outcome, notice: leftWords(left) };
};

/**
 * Lets the risers of a level go on to its copy from the level next to the copy. A riser of ours may end before that; it
 * goes on all the same where another one continues it at the same place. Answers with those that cannot.
 */
function goOn(plan: Plan, draft: Draft, from: Id, to: Level, side: Side): Riser[] {
  const beside = side === 'above' ? levelsUp(plan).at(-1)! : levelsUp(plan)[0]!;
  const there = risersOn(plan, beside.id);
  const left: Riser[] = [];
  const done = new Set<string>();
  for (const riser of risersOn(plan, from)) {
    const key = riser.at.join();
    const last = there.find(({ at }) => at.join() === key);
    if (!last) left.push(riser);
    if (!last || done.has(key)) continue;
    done.add(key);
    const [lower, upper] = lowerFirst(beside, to);
    const name = freeName(draft.plan.tables.risers.values(), last.name);
    const fields = { id: draft.fresh('risers'), level: lower.id, upper: upper.id, name };
    draft.put('risers', { ...last, ...fields });
  }
  return left;
}

function leftWords(left: readonly Riser[]): Message {
  const names = [...new Set(left.map(({ name }) => name || 'A riser'))].join(', ');
  return msg(
    left.length === 1
      ? '{names} does not go on to the copy: it does not come out on the level beside it.'
      : '{names} do not go on to the copy: they do not come out on the level beside it.',
    { names },
  );
}

/** The letters that are in use on a level, each with the one that its copy takes. */
function copiedLetters(plan: Plan, level: Id, devices: boolean): ReadonlyMap<string, string> {
  const used = new Set<string>([plan.tables.levels.get(level)!.area]);
  for (const zone of onLevel(plan, 'zones', level)) used.add(zone.area);
  const outlets = new Set(onLevel(plan, 'outlets', level).map((outlet) => outlet.id));
  if (devices)
    for (const jack of plan.tables.jacks.values())
      if (outlets.has(jack.outlet)) used.add(jack.label.charAt(0));
  const taken = lettersTaken(plan);
  const free = AREA_LETTERS.filter((letter) => !taken.has(letter));
  return new Map([...used].sort().map((letter, i) => [letter, free[i] ?? letter]));
}

interface Copying {
  /** The copy's id of each row that was copied, by its key. */
  readonly ids: Map<string, Id>;
  copy(table: TableName, row: AnyEntity, fields: object): void;
}

/**
 * Devices, outlets, jacks, power outlets, closets and pins. What they name is the copy where that was copied; a closet
 * or a pin on another level stays the one that was chosen.
 */
function copyPlaced(
  plan: Plan,
  draft: Draft,
  { from, to }: { from: Id; to: Id },
  letters: ReadonlyMap<string, string>,
  { ids, copy }: Copying,
): void {
  const named = (table: TableName, id: Id | null): Id | null =>
    id === null ? null : (ids.get(`${table}/${id}`) ?? null);
  for (const [table, free] of [
    ['closets', freeName],
    ['pins', freePinName],
  ] as const)
    for (const row of onLevel(plan, table, from))
      copy(table, row, { level: to, name: free(draft.plan.tables[table].values(), row.name) });
  const chosen = (table: 'closets' | 'pins', id: Id | null): Id | null => named(table, id) ?? id;
  const devices = onLevel(plan, 'devices', from);
  // Hosts first, so that those who share find the copy of theirs.
  for (const device of [...devices].sort(
    (a, b) => Number(a.host !== null) - Number(b.host !== null),
  ))
    copy('devices', device, {
      level: to,
      host: named('devices', device.host),
      // A name tells one device from the others; its copy is another.
      name: '',
    });
  for (const power of onLevel(plan, 'powers', from)) copy('powers', power, { level: to });
  const label = labelCopier(draft, letters);
  for (const outlet of onLevel(plan, 'outlets', from)) {
    const jacks = [...plan.tables.jacks.values()].filter((jack) => jack.outlet === outlet.id);
    copy('outlets', outlet, { level: to, wall: named('walls', outlet.wall) });
    for (const jack of jacks)
      copy('jacks', jack, {
        outlet: named('outlets', outlet.id)!,
        label: label(jack.label),
        device: named('devices', jack.device),
        closet: chosen('closets', jack.closet),
        pin: chosen('pins', jack.pin),
        // The copy is still to be built.
        built: null,
      });
  }
}

/** New labels: the old number under a letter that is new, else the next number under the old letter. */
function labelCopier(draft: Draft, letters: ReadonlyMap<string, string>) {
  const numbers = new Map<string, number>();
  return (old: string): string => {
    const { area, number, cable } = labelParts(old);
    const letter = letters.get(area)!;
    if (letter !== area) return makeLabel(letter, number, cable);
    const key = `${area}${number}`;
    const next = numbers.get(key) ?? nextNumber(draft.plan, area);
    numbers.set(key, next);
    return makeLabel(area, next, cable);
  };
}
