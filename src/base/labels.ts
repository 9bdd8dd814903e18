/** The next piece of a label: a whole number, or the words before one. */
const PIECE = /\d+|\D+/g;

/** A label as it is compared: its pieces as they are written, and the number that each is, or null. */
interface Reading {
  readonly label: string;
  readonly pieces: readonly string[];
  readonly numbers: readonly (number | null)[];
}

function read(label: string): Reading {
  const pieces: readonly string[] = label.match(PIECE) ?? [];
  return { label, pieces, numbers: pieces.map((p) => (/^\d/.test(p) ? Number(p) : null)) };
}

/**
 * Natural order of labels: numbers count as numbers, so that A2 stands before A10 and A3-2 before A3-10.
 *
 * @returns negative, zero or positive, as a sort wants it; zero only for equal labels
 */
export const compareLabels = (a: string, b: string): number =>
  a === b ? 0 : compareReadings(read(a), read(b));

/**
 * The items in the natural order of their labels, each read once; those with equal labels in the order of a second
 * text, or as they come where there is none.
 */
export function sortByLabel<T>(
  items: readonly T[],
  labelOf: (item: T) => string,
  secondOf: (item: T) => string = () => '',
): T[] {
  return items
    .map((item) => ({ item, label: read(labelOf(item)) }))
    .sort(
      (a, b) =>
        compareReadings(a.label, b.label) || compareLabels(secondOf(a.item), secondOf(b.item)),
    )
    .map(({ item }) => item);
}

function compareReadings(a: Reading, b: Reading): number {
  const shorter = Math.min(a.pieces.length, b.pieces.length);
  for (let i = 0; i < shorter; i += 1) {
    const [m, n] = [a.numbers[i]!, b.numbers[i]!];
    const difference = m !== null && n !== null ? m - n : compareWords(a.pieces[i]!, b.pieces[i]!);
    if (difference !== 0) return difference;
  }
  // Equal piece by piece but not letter by letter: A1 and A01. The longer way of writing comes second.
  return (
    a.pieces.length - b.pieces.length ||
    a.label.length - b.label.length ||
    compareWords(a.label, b.label)
  );
}

const compareWords = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
