import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { readPlan, writePlan } from '../../../src/plan/codec.ts';
import type { Edge } from '../../../src/plan/commands/align.ts';
import { type CommandArgs, type CommandName, commands } from '../../../src/plan/commands/index.ts';
import {
  commit,
  type History,
  redo,
  startHistory,
  undo,
  undoable,
} from '../../../src/plan/history.ts';
import { checkWhole } from '../../../src/plan/integrity.ts';
import { emptyPlan, type Plan, type Ref } from '../../../src/plan/plan.ts';
import { SINGLETONS, TABLES, type TableName } from '../../../src/plan/schema.ts';
import { ask } from './steps.ts';

/** Commands in all, and the seed of the dice; both can be named from outside for a longer search. */
const COUNT = Number(process.env.SESSION_COMMANDS ?? 20_000);
const SEED = Number(process.env.SESSION_SEED ?? 7_2026);
/** Commands of one session: fewer than the history keeps, so that all of them can be undone. */
const SESSION = 200;
/** Rows beyond which a session deletes before it goes on, so that its plan stays the size of a job. */
const CROWD = 120;

/** Whole numbers from 0 up to, and without, a limit. */
type Dice = (limit: number) => number;

/** What a session throws its arguments with. */
class Hand {
  readonly plan: Plan;
  readonly dice: Dice;
  constructor(plan: Plan, dice: Dice) {
    this.plan = plan;
    this.dice = dice;
  }
  one = <T>(items: readonly T[]): T => items[this.dice(items.length)]!;
  yes = (): boolean => this.dice(2) === 0;
  at = (): Point => [this.dice(33) * 500 - 4000, this.dice(25) * 500 - 4000];
  /** An id of a table, or one that is not there, as from a menu that was left open. */
  id = (table: TableName): string => this.one([...this.plan.tables[table].keys(), 'X9']);
  device = (kind: string): string => {
    const all = [...this.plan.tables.devices.values()];
    return this.one([...all.filter((device) => device.kind === kind).map(({ id }) => id), 'X9']);
  };
  level = (): string => this.one([...this.plan.tables.levels.keys()]);
  kind = (): string => this.one([...kinds.keys()]);
  rows(tables: readonly TableName[] = DRAWN): Ref[] {
    return tables.flatMap((table) =>
      [...this.plan.tables[table].keys()].map((id): Ref => ({ table, id })),
    );
  }
  /** Some rows, in no order of theirs. */
  some(most = 5, tables?: readonly TableName[]): Ref[] {
    const rows = this.rows(tables);
    return Array.from({ length: 1 + this.dice(most) }, () => this.one(rows)).filter(Boolean);
  }
  box(): Point[] {
    const [a, b] = [this.at(), this.at()];
    return [a, [b[0], a[1]], b, [a[0], b[1]]];
  }
  chain = (): Point[] => Array.from({ length: 1 + this.dice(4) }, () => this.at());
  jacks = (): string[] => this.some(4, ['jacks']).map(({ id }) => id);
  picture = (): Point => [this.dice(900), this.dice(700)];
  own() {
    return { outletSlack: this.one([null, 0, 500]), wastePercent: this.one([null, 5]) };
  }
  built() {
    return { end: this.one([null, 30_000]), test: this.one([null, 'pass'] as const) };
  }
}

const DRAWN = TABLES.filter(
  (table) => !['levels', 'allowances', ...SINGLETONS].includes(table),
) as readonly TableName[];

/** Pictures that are kept beside the plan. */
const PICTURES = ['0123456789abcdef', 'fedcba9876543210', 'aaaabbbbccccdddd'] as const;
const KNOWN: ReadonlySet<string> = new Set(kinds.keys());
const FILES = new Map(PICTURES.map((hash) => [hash, { name: '', type: 'image/png', data: '' }]));
const KEPT = new Map<string, unknown>(PICTURES.map((hash) => [hash, hash]));

const EDGES: readonly Edge[] = ['left', 'right', 'top', 'bottom', 'across', 'down'];

/** Fields that somebody edits on a card, by table; some of them cannot be. */
const EDITS: readonly (readonly [TableName, Readonly<Record<string, unknown>>])[] = [
  ['job', { name: 'Corner shop', units: 'm' }],
  ['job', { units: 'ft' }],
  ['settings', { closetLoop: 2000 }],
  ['prices', { jack: 700 }],
  ['levels', { frameAngle: 30 }],
  ['levels', { elevation: 4000 }],
  ['backgrounds', { opacity: 30, hidden: true }],
  ['zones', { name: 'Kitchen', ceiling: { kind: 'hard', height: 2500 } }],
  ['zones', { area: 'Q' }],
  ['walls', { thickness: 300 }],
  ['walls', { construction: 'masonry', rated: true }],
  ['openings', { width: 1500 }],
  ['keepouts', { clearance: 100 }],
  ['pathways', { kind: 'conduit', size: '1 in.' }],
  ['risers', { name: 'Shaft' }],
  ['pins', { name: 'Over the bar' }],
  ['closets', { ports: 24 }],
  ['devices', { height: 900 }],
  ['devices', { kind: 'card-terminal' }],
  ['outlets', { mount: 'pole' }],
  ['jacks', { label: 'B7' }],
  ['jacks', { closet: null }],
  ['powers', { name: 'Counter' }],
  ['notes', { text: 'Mind the beam' }],
  ['dimensions', { aside: -400 }],
  // As far as the schema goes, and no further.
  ['jacks', { label: 'B9999' }],
  ['jacks', { label: 'A1-99' }],
  ['job', { name: 'שלום 💡'.repeat(50) }],
  ['levels', { name: 'L'.repeat(400) }],
  ['levels', { elevation: 33_000_000 }],
  ['levels', { deck: 33_000_000 }],
  ['levels', { deck: 0, area: 'Z' }],
  ['walls', { thickness: 33_000_000 }],
  ['walls', { thickness: 1 }],
  ['openings', { width: 1, height: 1, sill: 33_000_000 }],
  ['keepouts', { clearance: 33_000_000 }],
  ['risers', { name: 'R'.repeat(400) }],
  ['pins', { name: 'P'.repeat(400) }],
  ['closets', { name: 'C'.repeat(400), ports: 10_000 }],
  ['closets', { height: 33_000_000 }],
  ['devices', { cord: 0 }],
  ['devices', { cord: 33_000_000, height: 33_000_000 }],
  ['outlets', { height: 33_000_000 }],
  ['outlets', { mount: 'ceiling', wall: null }],
  ['backgrounds', { mmPerPixel: 100_000 }],
  ['dimensions', { aside: 33_000_000 }],
];

/** Arguments for each command of the registry; the type asks for every one. */
const DEEDS: { readonly [N in CommandName]: (hand: Hand) => CommandArgs<N> } = {
  'add-background': (h) => ({
    level: h.level(),
    name: 'Sheet',
    asset: h.one(PICTURES),
    width: 1000,
    height: 800,
    paper: h.one([null, 420]),
  }),
  'add-jack': (h) => ({ outlet: h.id('outlets'), spare: h.yes() }),
  'add-level': (h) => ({ from: h.level(), side: h.one(['above', 'below']) }),
  'allow-jacks': (h) => ({ jacks: h.jacks(), fields: h.own() }),
  'allow-kind': (h) => ({ kind: h.kind(), fields: h.own() }),
  align: (h) => ({ refs: h.some(), edge: h.one(EDGES) }),
  'copy-level': (h) => ({
    level: h.level(),
    side: h.one(['above', 'below']),
    devices: h.yes(),
  }),
  'check-scale': (h) => ({
    background: h.id('backgrounds'),
    a: h.at(),
    b: h.at(),
    length: 1 + h.dice(9000),
  }),
  'crop-background': (h) => ({ background: h.id('backgrounds'), a: h.at(), b: h.at() }),
  delete: (h) => ({ refs: h.some(2, [...DRAWN, 'levels']) }),
  distribute: (h) => ({ refs: h.some(), along: h.one(['x', 'y']) }),
  'draw-dimension': (h) => ({ level: h.level(), a: h.at(), b: h.at() }),
  'draw-keepout': (h) => ({ level: h.level(), outline: h.box() }),
  'draw-pathway': (h) => ({
    level: h.level(),
    points: h.chain(),
    kind: h.one(['tray', 'conduit', 'hook-line', 'sleeve']),
  }),
  'draw-walls': (h) => ({ level: h.level(), points: h.chain(), closed: h.yes() }),
  'draw-zone': (h) => ({ level: h.level(), outline: h.box(), walls: h.yes(), typed: h.yes() }),
  duplicate: (h) => ({
    refs: h.some(),
    by: h.at(),
    count: 1 + h.dice(2),
    ...(h.dice(4) === 0 ? { level: h.level() } : {}),
  }),
  edit: (h) => {
    const [table, fields] = h.one(EDITS);
    return { table, id: h.id(table), fields };
  },
  'fill-room': (h) => {
    const [x, y] = h.at();
    return { level: h.level(), at: [x + 250, y + 250], passages: h.dice(2) === 0 };
  },
  'give-jack': (h) => ({ device: h.id('devices') }),
  'lay-background': (h) => ({ background: h.id('backgrounds'), over: h.yes() }),
  'level-background': (h) => ({ background: h.id('backgrounds'), a: h.at(), b: h.at() }),
  'join-pin': (h) => ({ pin: h.id('pins'), jacks: h.jacks() }),
  'leave-free': (h) => ({ jacks: h.jacks() }),
  lock: (h) => ({ refs: h.some(), locked: h.dice(4) === 0 }),
  'make-spare': (h) => ({ jack: h.id('jacks') }),
  mirror: (h) => ({ refs: h.some(), across: h.one(['x', 'y']) }),
  move: (h) => ({ refs: h.some(), by: h.at() }),
  'move-point': (h) => ({
    ref: h.one([
      ...h.rows(['walls', 'zones', 'keepouts', 'pathways', 'pins', 'notes', 'dimensions']),
      { table: 'walls', id: 'X9' },
    ]),
    index: h.dice(4),
    to: h.at(),
    alone: h.yes(),
  }),
  'pin-runs': (h) => ({ level: h.level(), points: h.chain(), jacks: h.jacks() }),
  'place-closet': (h) => ({ level: h.level(), at: h.at() }),
  'place-device': (h) => ({
    level: h.level(),
    // Two kinds that share a jack come often, so that one does.
    kind: h.one([h.kind(), 'order-station', 'receipt-printer']),
    at: h.at(),
    alone: h.yes(),
  }),
  'place-note': (h) => ({
    level: h.level(),
    at: h.at(),
    text: 'Look',
    ...(h.yes() ? { to: h.at() } : {}),
  }),
  'place-opening': (h) => ({
    level: h.level(),
    kind: h.one(['door', 'window', 'opening']),
    at: h.at(),
    width: 1 + h.dice(3000),
  }),
  'place-power': (h) => ({ level: h.level(), at: h.at() }),
  'place-riser': (h) => ({ level: h.level(), at: h.at() }),
  'place-spare': (h) => ({ level: h.level(), at: h.at() }),
  record: (h) => ({ records: h.jacks().map((jack) => ({ jack, fields: h.built() })) }),
  renumber: () => ({}),
  'repeat-along': (h) => ({ refs: h.some(2), a: h.at(), b: h.at(), step: 2500 }),
  'replace-kind': (h) => ({ refs: h.some(5, ['devices']), kind: h.kind() }),
  rotate: (h) => ({ refs: h.some(), by: h.one([90, -90, 30, 180]) }),
  'set-printed-scale': (h) => ({
    background: h.id('backgrounds'),
    ratio: h.one([48, 100]),
    paper: h.one([420, 914.4]),
    follow: h.yes(),
  }),
  'set-scale': (h) => ({
    background: h.id('backgrounds'),
    a: h.at(),
    b: h.at(),
    length: 1 + h.dice(9000),
    follow: h.yes(),
  }),
  // Mostly both of kinds that share, so that some pair does, whatever the dice say.
  'share-jack': (h) =>
    h.dice(4) > 0
      ? { device: h.device('receipt-printer'), host: h.device('order-station') }
      : { device: h.id('devices'), host: h.id('devices') },
  'straighten-background': (h) => ({
    background: h.id('backgrounds'),
    corners: [
      [10, 10],
      [900 + h.dice(90), 20],
      [950, 700 + h.dice(90)],
      [20, 760],
    ],
    asset: h.one(PICTURES),
    width: 800,
    height: 600,
  }),
  'take-walls': (h) => ({
    level: h.level(),
    walls: [
      {
        a: h.at(),
        b: h.at(),
        thickness: 60 + h.dice(400),
        windows: [{ along: h.dice(3000), width: 300 + h.dice(2000) }],
      },
      { a: h.at(), b: h.at(), thickness: 124 },
    ],
  }),
  turn: (h) => ({ refs: h.some(), by: h.one([15, 90, -90]) }),
  'turn-background': (h) => ({ background: h.id('backgrounds') }),
};

const NAMES = Object.keys(commands) as CommandName[];

/** How often each command changed the plan. */
type Tally = Map<CommandName, number>;

const crowded = ({ tables }: Plan): boolean =>
  tables.levels.size > 4 || DRAWN.reduce((sum, table) => sum + tables[table].size, 0) > CROWD;

/** One command, with whatever arguments come up; what it refuses changes nothing. */
function deed(history: History, dice: Dice, tally: Tally): History {
  const { plan } = history;
  const name = crowded(plan) && dice(2) === 0 ? 'delete' : NAMES[dice(NAMES.length)]!;
  const hand = new Hand(plan, dice);
  const args =
    name === 'delete' && crowded(plan)
      ? { refs: hand.some(30, [...DRAWN, 'levels']) }
      : DEEDS[name](hand);
  const outcome = ask(plan, name, args as CommandArgs<typeof name>);
  if (!outcome.ok || outcome.changes.length === 0) return history;
  tally.set(name, (tally.get(name) ?? 0) + 1);
  const next = commit(history, { label: outcome.label, changes: outcome.changes });
  // After every command the plan can be saved and opened again; the message names the one that broke it.
  const issues = checkWhole(next.plan, KNOWN, KEPT);
  if (issues.length > 0) throw new Error(`${name} ${JSON.stringify(args)}: ${issues[0]!.message}`);
  return next;
}

/** A session from an empty sheet: some steps back and forth on the way, all of them back at its end. */
function session(commandsLeft: number, dice: Dice, tally: Tally): void {
  const first = writePlan(emptyPlan());
  let history = startHistory(emptyPlan());
  for (let i = 0; i < commandsLeft; i++) {
    history = deed(history, dice, tally);
    if (dice(12) === 0) history = undo(history);
    if (dice(20) === 0) history = redo(history);
  }
  const last = writePlan(history.plan);
  const opened = readPlan(writePlan(history.plan, FILES), KNOWN);
  if (!opened.ok) throw new Error(opened.issues[0]!.message);
  const steps = history.cursor;
  while (undoable(history)) history = undo(history);
  expect(writePlan(history.plan)).toBe(first);
  for (let i = 0; i < steps; i++) history = redo(history);
  expect(writePlan(history.plan)).toBe(last);
}

describe('Sessions of every command that there is', () => {
  it(`come back to a byte-identical plan when all is undone, and every command takes part`, () => {
    const tally: Tally = new Map();
    const [seedling] = fc.sample(fc.infiniteStream(fc.nat({ max: 0x7fffffff })), {
      seed: SEED,
      numRuns: 1,
    });
    const dice: Dice = (limit) => seedling!.next().value! % Math.max(1, limit);
    for (let done = 0; done < COUNT; done += SESSION)
      session(Math.min(SESSION, COUNT - done), dice, tally);
    expect(NAMES.filter((name) => !tally.has(name))).toEqual([]);
  }, 600_000);
});
