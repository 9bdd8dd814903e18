/** Identity of an entity: a short prefix and a number (`W12`), unique in its table. */
export type Id = string;

/**
 * The order of a table's rows: short names first, so that W2 stands before W10; then by code unit, the same in every
 * language.
 */
export const compareIds = (a: Id, b: Id): number =>
  a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);

/** Numbers beyond this are not counted on: a file may give any, and near the end of whole numbers the next is no other. */
const MOST = 1_000_000_000_000;

/**
 * The next free id with this prefix: one above the highest in use, so that ids never depend on a clock or on chance; the
 * lowest that is free where a file has used the highest that is counted on.
 */
export function nextId(prefix: string, taken: Iterable<Id>): Id {
  const ids = [...taken];
  let top = 0;
  for (const id of ids) {
    if (!id.startsWith(prefix)) continue;
    const n = Number(id.slice(prefix.length));
    if (Number.isSafeInteger(n) && n > top && n <= MOST) top = n;
  }
  if (top < MOST) return `${prefix}${top + 1}`;
  const used = new Set(ids);
  let free = 1;
  while (used.has(`${prefix}${free}`)) free += 1;
  return `${prefix}${free}`;
}
