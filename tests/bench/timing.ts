import { Bench } from 'tinybench';

/** How long a task took: its median in each round, ms. */
export interface Timing {
  readonly rounds: readonly number[];
}

export interface Effort {
  /** Time for a task in a round, ms, beyond its least iterations. */
  readonly time?: number;
  /** The same before the first round, so that all is compiled by then; as long as in a round if nothing is said. */
  readonly warmUp?: number;
  readonly iterations?: number;
  readonly rounds?: number;
}

type Tasks<K extends string> = Readonly<Record<K, () => unknown>>;

/**
 * Times tasks in turns, so that what else the machine does meets all of them alike: each round goes through all, and
 * ratios are taken within a round.
 */
export async function timed<K extends string>(
  tasks: Tasks<K>,
  { time = 120, warmUp = time, iterations = 4, rounds = 5 }: Effort = {},
): Promise<Record<K, Timing>> {
  const found = {} as Record<K, { rounds: number[] }>;
  for (const name in tasks) found[name] = { rounds: [] };
  for (let round = 0; round < rounds; round++) {
    const bench = new Bench({
      time,
      iterations,
      warmup: round === 0,
      warmupTime: warmUp,
      warmupIterations: iterations,
      throws: true,
    });
    for (const name in tasks) bench.add(name, tasks[name]);
    for (const { name, result } of await bench.run()) {
      if (result.state !== 'completed') throw new Error(`${name}: ${result.state}`);
      found[name as K].rounds.push(result.latency.p50);
    }
  }
  return found;
}

/** How long one run took, for what is too slow to be run again and again. */
export async function once(task: () => unknown): Promise<Timing> {
  const start = performance.now();
  await task();
  return { rounds: [performance.now() - start] };
}

export function middle(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

export const ms = ({ rounds }: Timing): number => middle(rounds);

/** How many times longer the first took: the median of the ratios of the rounds, where both had as many. */
export function ratio(a: Timing, b: Timing): number {
  if (a.rounds.length !== b.rounds.length) return ms(a) / ms(b);
  return middle(a.rounds.map((t, i) => t / b.rounds[i]!));
}
