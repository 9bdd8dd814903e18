/** Adds an item to the list under a key, which begins with it where there is none yet. */
export function addUnder<K, T>(lists: Map<K, T[]>, key: K, item: T): void {
  const list = lists.get(key);
  if (list) list.push(item);
  else lists.set(key, [item]);
}

/** The items by what the function says of each, groups and items in the order in which they come. */
export function groupBy<T, K>(items: Iterable<T>, keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) addUnder(groups, keyOf(item), item);
  return groups;
}
