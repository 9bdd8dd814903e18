import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import { FAR } from '../../base/units.ts';
import { Draft } from '../change.ts';
import { labelParts, makeLabel, nextNumber } from '../labels.ts';
import { AREA_LETTERS, lettersTaken, levelsUp } from '../levels.ts';
import { type AnyEntity, type Level, makeRow, onLevel, type Plan } from '../plan.ts';
import type { TableName } from '../schema.ts';
import type { Command, Outcome } from './command.ts';

/** From the underside of a deck to the floor that it carries: 1 ft of slab and beams (common practice, no source). */
export const STRUCTURE = 305;

type Side = 'above' | 'below';

/** What a new level takes unless somebody says otherwise. */
type Look = Partial<Pick<Level, 'name' | 'elevation' | 'deck' | 'ceiling'>>;

/** A name that no level has: by its place in the building, counted from the ground level. */
function levelName(plan: Plan, side: Side): string {
  const taken = new Set([...plan.tables.levels.values()].map((level) => level.name));
  const first = side === 'above' ? 2 : 1;
  const named = (n: number) =>
    side === 'above' ? `Level ${n}` : n === 1 ? 'Basement' : `Basement ${n}`;
  let n = first;
  while (taken.has(named(n))) n += 1;
  return named(n);
}

/** The first letter that nothing in the plan has; `Z` where all are taken. */
const freeLetter = (plan: Plan): string => {
  const taken = lettersTaken(plan);
  return AREA_LETTERS.find((letter) => !taken.has(letter)) ?? 'Z';
};

/** Puts a level on top of the building or underneath it, as high as the level `like` it. */
function putLevel(draft: Draft, side: Side, like: Level, look: Look): Level | Message {
  const levels = levelsUp(draft.plan);
  const deck = look.deck ?? like.deck;
  const top = levels.at(-1)!;
  const floor =
    side === 'above'
      ? top.elevation + top.deck + STRUCTURE
      : levels[0]!.elevation - STRUCTURE - deck;
  const elevation = look.elevation ?? floor;
  if (Math.abs(elevation) > FAR) return msg('That is farther than a plan can reach.');
  return draft.put(
    'levels',
    makeRow('levels', draft.fresh('levels'), {
      name: look.name ?? levelName(draft.plan, side),
      elevation,
      deck,
      ceiling: look.ceiling ?? like.ceiling,
      area: freeLetter(draft.plan),
      frameAngle: like.frameAngle,
    }),
  );
}

const isWords = (value: Level | Message): value is Message => 'text' in value;

const gone = msg('That level is no longer there.');

/**
 * Adds a level on top of the building or underneath it. Deck, ceiling and building lines are those of the level that
 * it is asked for from; its floor lies a deck and a foot of structure from the next; its letter is one that nobody has.
 */
export const addLevel: Command<{ from: Id; side: Side } & Look> = (
  plan,
  { from, side, ...look },
) => {
  const like = plan.tables.levels.get(from);
  if (!like) return { ok: false, why: gone };
  const draft = new Draft(plan);
  const level = putLevel(draft, side, like, look);
  if (isWords(level)) return { ok: false, why: level };
  return added(draft, level, msg('Add {name}', { name: level.name }));
};

const added = (draft: Draft, { id }: Level, label: Message): Outcome => ({
  ok: true,
  changes: draft.changes(),
  label,
  select: [],
  level: id,
});

/** Tables whose rows are copied as they stand. */
const BUILDING = [
  'zones',
  'walls',
  'keepouts',
  'pathways',
  'notes',
  'dimensions',
] as const satisfies readonly TableName[];

/**
 * Copies a level with its rooms, walls with their openings, keep-outs and pathways to the top of the building or underneath it; with
 * `devices` also what is placed on it, with jacks of their own. Its areas take letters that nobody has, while there
 * are any, and the copies keep their numbers; where letters run out the labels go on counting in the old ones.
 * Closets, risers, pins, pictures, notes and dimension lines stay where they are.
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
  if (devices) copyPlaced(plan, draft, { from: id, to: level.id }, letters, { ids, copy });
  return added(draft, level, msg('Copy {name}', { name: from.name }));
};

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

/** Devices, outlets, jacks and power outlets; what they name is the copy where that was copied, else nothing. */
function copyPlaced(
  plan: Plan,
  draft: Draft,
  { from, to }: { from: Id; to: Id },
  letters: ReadonlyMap<string, string>,
  { ids, copy }: Copying,
): void {
  const named = (table: TableName, id: Id | null): Id | null =>
    id === null ? null : (ids.get(`${table}/${id}`) ?? null);
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
        closet: null,
        pin: null,
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
