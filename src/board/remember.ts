/** Keeps the last answer of a function for as long as a key holds. */
export function keep<A extends readonly unknown[], R>(make: (...args: A) => R) {
  let last: readonly unknown[] | null = null;
  let made: R;
  return (key: readonly unknown[], ...args: A): R => {
    const before = last;
    if (!before || before.length !== key.length || key.some((value, i) => value !== before[i])) {
      last = key;
      made = make(...args);
    }
    return made;
  };
}

/** Keeps the last answer of a function, for the same arguments. */
export function remember<A extends readonly unknown[], R>(make: (...args: A) => R) {
  const kept = keep(make);
  return (...args: A): R => kept(args, ...args);
}
