import type { Id } from '../base/ids.ts';
import type { Jack, Plan } from './plan.ts';

/** What is recorded of a cable as it was built. */
export type Built = NonNullable<Jack['built']>;

/** The fields that somebody types; where the outlet hung goes along by itself. */
export const BUILT_FIELDS = [
  'start',
  'end',
  'length',
  'port',
  'test',
  'by',
  'on',
  'remark',
] as const;

/** Nothing recorded yet. */
export const NOT_BUILT: Built = {
  start: null,
  end: null,
  length: null,
  port: null,
  test: null,
  by: '',
  on: '',
  remark: '',
  at: null,
};

/** The cable by the marks on its jacket, whichever way the box was counted; null until both are known. */
export const betweenMarks = ({ start, end }: Pick<Built, 'start' | 'end'>): number | null =>
  start === null || end === null ? null : Math.abs(end - start);

/** The length of a cable as it was built, mm: as typed, else by its marks; null while it is not recorded. */
export const builtLength = (built: Built | null): number | null =>
  built && (built.length ?? betweenMarks(built));

/** The recorded length of a jack's cable, mm; null while there is none. */
export const builtLengthOf = (plan: Plan, jack: Id): number | null =>
  builtLength(plan.tables.jacks.get(jack)?.built ?? null);

/** Marks stand every 2 ft and are read at two ends; a tester reads a length to within some percent. Common practice, no source. */
const READ = { share: 0.05, least: 1200 } as const;

/** The cable by its marks where a length that was typed says otherwise, and more than reading explains; else null. */
export function marksAgainst(built: Built | null): number | null {
  const marks = built && betweenMarks(built);
  if (!built || built.length === null || marks === null) return null;
  const off = Math.abs(built.length - marks);
  return off > Math.max(READ.least, READ.share * marks) ? marks : null;
}

/** The ports that are recorded, by their jacks. */
export const builtPorts = (plan: Plan): ReadonlyMap<Id, number> =>
  new Map(
    [...plan.tables.jacks.values()].flatMap(({ id, built }) =>
      built?.port ? [[id, built.port] as const] : [],
    ),
  );

/** How far the record of a job is. */
export interface BuiltCount {
  readonly cables: number;
  readonly recorded: number;
  readonly passed: number;
  readonly failed: number;
}

/** Counts what is recorded of all cables. */
export function countBuilt(plan: Plan): BuiltCount {
  const jacks = [...plan.tables.jacks.values()];
  const count = (holds: (jack: Jack) => boolean): number => jacks.filter(holds).length;
  return {
    cables: jacks.length,
    recorded: count((jack) => jack.built !== null),
    passed: count((jack) => jack.built?.test === 'pass'),
    failed: count((jack) => jack.built?.test === 'fail'),
  };
}

/** How far the record of some jacks is: of one that failed its test before all else, and of all of them otherwise. */
export type BuiltState = 'none' | 'recorded' | 'passed' | 'failed';

/** What is said of some jacks together. */
export function builtState(jacks: readonly Pick<Jack, 'built'>[]): BuiltState {
  if (jacks.some(({ built }) => built?.test === 'fail')) return 'failed';
  if (jacks.length === 0 || jacks.some(({ built }) => built === null)) return 'none';
  return jacks.every(({ built }) => built?.test === 'pass') ? 'passed' : 'recorded';
}
