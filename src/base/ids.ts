/** Identity of an entity: a short prefix and a number (`W12`), unique in its table. */
export type Id = string;

/**
 * The order of a table's rows: short names first, so that W2 stands before W10; then by code unit, the same in every
 * language.
 */
export const compareIds = (a: Id, b: Id): number =>
  a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);

/**
 * The next free id with this prefix: one above the highest in use, so that ids never depend on a clock or on chance.
 */
export function nextId(prefix: string, taken: Iterable<Id>): Id {
  let top = 0;
  for (const id of taken) {
    if (!id.startsWith(prefix)) continue;
    const n = Number(id.slice(prefix.length));
    if (Number.isSafeInteger(n) && n > top) top = n;
  }
  return `${prefix}${top + 1}`;
}
