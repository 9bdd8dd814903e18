/** Boxes as lists of indices into the sizes. */
export type Packing = readonly (readonly number[])[];

/**
 * Best-fit decreasing: the longest piece first, each into the fullest box that still takes it. Equal sizes keep
 * their order, so the outcome is fixed.
 */
export function bestFitDecreasing(sizes: readonly number[], capacity: number): number[][] {
  const boxes: { items: number[]; left: number }[] = [];
  for (const item of byLength(sizes)) {
    const size = sizes[item]!;
    let best: (typeof boxes)[number] | undefined;
    for (const box of boxes)
      if (box.left >= size && (best === undefined || box.left < best.left)) best = box;
    if (best === undefined) {
      best = { items: [], left: capacity };
      boxes.push(best);
    }
    best.items.push(item);
    best.left -= size;
  }
  return boxes.map((box) => box.items);
}

const byLength = (sizes: readonly number[]): number[] =>
  sizes.map((_, i) => i).sort((a, b) => sizes[b]! - sizes[a]! || a - b);

export function packBoxes(sizes: readonly number[], capacity: number): Packing {
  return bestFitDecreasing(sizes, capacity);
}
