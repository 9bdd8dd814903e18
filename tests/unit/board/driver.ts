import { createEditor } from '../../../src/board/create-editor.ts';
import type { Editor, Held, LengthRequest, StraightenRequest } from '../../../src/board/editor.ts';
import { createKeys, type Keys } from '../../../src/board/keys.ts';
import { createSession, type SessionApi, type SessionStore } from '../../../src/board/session.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { apply, Draft } from '../../../src/plan/change.ts';
import { writePlan } from '../../../src/plan/codec.ts';
import { type CommandArgs, type CommandName, commands } from '../../../src/plan/commands/index.ts';
import { type Background, emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';

/** A session with its editor and keys, driven by words: `press 0,0 · move 400,0 · release 400,0 · key Enter`. */
export interface Driver {
  readonly session: SessionApi;
  readonly editor: Editor;
  readonly keys: Keys;
  /** Lengths that were asked for, and what was answered. */
  readonly asked: LengthRequest[];
  /** Photos that were to be made upright. */
  readonly straightened: StraightenRequest[];
  state(): SessionStore;
  plan(): Plan;
  /** Plays a transcript; steps are parted by a middle dot or a new line. */
  play(transcript: string, held?: Held): void;
  text(): string;
}

export interface DriverOptions {
  readonly plan?: Plan;
  readonly tool?: string;
  readonly option?: string;
  /** Off unless a test is about it, so that places are as written. */
  readonly snapping?: boolean;
  readonly answer?: number | null;
  readonly follow?: boolean;
}

/** At 0.1 px a mm a click reaches 50 mm, and 1 m is 100 px. */
const SCALE = 0.1;

export function drive(options: DriverOptions = {}): Driver {
  const session = createSession(kinds, options.plan ?? emptyPlan());
  session.getState().actions.set({
    snapping: options.snapping ?? false,
    viewport: { scale: SCALE, left: -5000, top: -5000, width: 2000, height: 2000 },
  });
  const asked: LengthRequest[] = [];
  const straightened: StraightenRequest[] = [];
  const editor = createEditor(session, kinds, {
    askLength: (request) => {
      asked.push(request);
      const { answer: length } = options;
      return Promise.resolve(length == null ? null : { length, follow: options.follow ?? false });
    },
    straighten: (request) => straightened.push(request),
  });
  const keys = createKeys(session, editor, kinds);
  if (options.tool) session.getState().actions.pick(options.tool, options.option);
  const driver: Driver = {
    session,
    editor,
    keys,
    asked,
    straightened,
    state: () => session.getState(),
    plan: () => session.getState().history.plan,
    text: () => writePlan(session.getState().history.plan),
    play(transcript, held = {}) {
      for (const step of transcript.split(/[·\n]/).map((s) => s.trim())) {
        if (step !== '') playStep(driver, step, held);
      }
    },
  };
  return driver;
}

const pointOf = (text: string): Point => {
  const [x, y] = text.split(',').map(Number);
  if (!Number.isFinite(x) || !Number.isFinite(y)) throw new Error(`no place: "${text}"`);
  return [x!, y!];
};

function playStep({ editor, keys }: Driver, step: string, held: Held): void {
  const [word, ...rest] = step.split(/\s+/);
  const where = rest[0] ?? '';
  switch (word) {
    case 'press':
      editor.press(pointOf(where), held);
      return;
    case 'move':
      editor.move(pointOf(where), held);
      return;
    case 'release':
      editor.release(pointOf(where), held);
      return;
    case 'click':
      editor.move(pointOf(where), held);
      editor.press(pointOf(where), held);
      editor.release(pointOf(where), held);
      return;
    case 'drag':
      editor.press(pointOf(where), held);
      editor.move(between(pointOf(where), pointOf(rest[1]!)), held);
      editor.move(pointOf(rest[1]!), held);
      editor.release(pointOf(rest[1]!), held);
      return;
    case 'double':
      editor.double(pointOf(where));
      return;
    case 'type':
      for (const key of rest.join(' ')) keys.press({ key, shift: false, ctrl: false }, true);
      return;
    case 'key': {
      const parts = where.split('+');
      const key = parts.at(-1)!;
      const ctrl = parts.includes('Ctrl');
      const shift = parts.includes('Shift');
      keys.press({ key, shift, ctrl }, true);
      return;
    }
    case 'abandon':
      editor.abandon();
      return;
    case 'cancel':
      editor.cancel();
      return;
    case 'lift':
      editor.lift();
      return;
    case 'leave':
      editor.leave();
      return;
    default:
      throw new Error(`no such step: "${step}"`);
  }
}

const between = (a: Point, b: Point): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

/** A plan after commands. Throws when one cannot be done. */
export function planWith(...calls: readonly PlanCall[]): Plan {
  return calls.reduce((plan, [name, args]) => {
    const command = commands[name] as (
      p: Plan,
      a: unknown,
      c: unknown,
    ) => ReturnType<(typeof commands)['move']>;
    const outcome = command(plan, args, { kinds });
    if (!outcome.ok) throw new Error(outcome.why.text);
    return apply(plan, outcome.changes);
  }, emptyPlan());
}

export type PlanCall = {
  readonly [N in CommandName]: readonly [N, CommandArgs<N>];
}[CommandName];

/** A room of 8 × 6 m with walls, a station by its north wall, a closet, a pathway and a keep-out. */
export const roomPlan = (): Plan =>
  planWith(
    [
      'draw-zone',
      {
        level: 'L1',
        outline: [
          [0, 0],
          [8000, 0],
          [8000, 6000],
          [0, 6000],
        ],
        walls: true,
      },
    ],
    ['place-device', { level: 'L1', kind: 'order-station', at: [3000, 600] }],
    ['place-closet', { level: 'L1', at: [7000, 5000] }],
    [
      'draw-pathway',
      {
        level: 'L1',
        kind: 'tray',
        points: [
          [1000, 4000],
          [6000, 4000],
        ],
      },
    ],
    [
      'draw-keepout',
      {
        level: 'L1',
        outline: [
          [1000, 4500],
          [3000, 4500],
          [3000, 5500],
          [1000, 5500],
        ],
      },
    ],
  );

/** A picture of 1000 × 800 pixels at 10 mm each, from the origin. */
export function picturePlan(fields: Partial<Background> = {}): Plan {
  const draft = new Draft(emptyPlan());
  draft.put(
    'backgrounds',
    makeRow('backgrounds', 'B1', { asset: 'a'.repeat(16), width: 1000, height: 800, ...fields }),
  );
  return draft.plan;
}
