import type { Id } from '../../base/ids.ts';
import { type Message, msg } from '../../base/message.ts';
import { FAR } from '../../base/units.ts';
import { Draft } from '../change.ts';
import { AREA_LETTERS, lettersTaken, levelsUp } from '../levels.ts';
import { type Level, makeRow, type Plan } from '../plan.ts';
import { BEYOND } from '../row-places.ts';
import type { Command, Outcome } from './command.ts';

/** From the underside of a deck to the floor that it carries: 1 ft of slab and beams (common practice, no source). */
export const STRUCTURE = 305;

/** Where a new level goes: on top of the building or underneath it. */
export type Side = 'above' | 'below';

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

/** Puts a level on top of the building or underneath it, as high as the level `like` it; words where it cannot be. */
export function putLevel(draft: Draft, side: Side, like: Level, look: Look): Level | Message {
  const levels = levelsUp(draft.plan);
  const deck = look.deck ?? like.deck;
  const top = levels.at(-1)!;
  const floor =
    side === 'above'
      ? top.elevation + top.deck + STRUCTURE
      : levels[0]!.elevation - STRUCTURE - deck;
  const elevation = look.elevation ?? floor;
  if (Math.abs(elevation) > FAR) return BEYOND;
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

/** Whether there are words instead of a level. */
export const isWords = (value: Level | Message): value is Message => 'text' in value;

/** Said where a level is asked for that is not there. */
export const gone = msg('That level is no longer there.');

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

/** What a command answers that put a level: the level is shown. */
export const added = (draft: Draft, { id }: Level, label: Message): Outcome => ({
  ok: true,
  changes: draft.changes(),
  label,
  select: [],
  level: id,
});
