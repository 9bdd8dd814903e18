/** The next piece of a label: a whole number, or the words before one. */
const PIECE = /\d+|\D+/g;

/**
 * Natural order of labels: numbers count as numbers, so that A2 stands before A10 and A3-2 before A3-10.
 *
 * @returns negative, zero or positive, as a sort wants it; zero only for equal labels
 */
export function compareLabels(a: string, b: string): number {
  const left = a.match(PIECE) ?? [];
  const right = b.match(PIECE) ?? [];
  for (let i = 0; i < left.length && i < right.length; i += 1) {
    const difference = comparePieces(left[i]!, right[i]!);
    if (difference !== 0) return difference;
  }
  // Equal piece by piece but not letter by letter: A1 and A01. The longer way of writing comes second.
  return left.length - right.length || a.length - b.length || compareWords(a, b);
}

const compareWords = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function comparePieces(a: string, b: string): number {
  const numeric = /^\d/;
  if (numeric.test(a) && numeric.test(b)) return Number(a) - Number(b);
  return compareWords(a, b);
}
