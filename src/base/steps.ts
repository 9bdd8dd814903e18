/** Long work in short steps: whoever carries it out may do something else between them. */
export type Steps<R> = Generator<void, R>;

/** Takes all steps at once. */
export function atOnce<R>(steps: Steps<R>): R {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
