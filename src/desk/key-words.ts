/** A key as it is shown beside what it picks: `W`, or `Shift N`. */
export const keyWords = (key: string): string =>
  key.length === 1 ? key.toUpperCase() : key.replaceAll('+', ' ');
