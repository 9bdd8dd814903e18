import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Id } from '../base/ids.ts';
import { type Message, msg } from '../base/message.ts';
import type { Point } from '../geometry/point.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { apply, type Changes, type Transaction } from '../plan/change.ts';
import type { Outcome } from '../plan/commands/command.ts';
import { type CommandArgs, type CommandName, commands } from '../plan/commands/index.ts';
import {
  commit,
  type History,
  redo,
  redoable,
  startHistory,
  undo,
  undoable,
  walkTo,
} from '../plan/history.ts';
import type { Plan, Ref } from '../plan/plan.ts';
import type { CeilingPlane } from '../results/ceiling-plane.ts';
import type { Survey } from '../results/types.ts';
import type { Underlay } from '../results/underlay.ts';

/** The seven legs of a job; one is open at a time, in any order. */
export const LEGS = ['base', 'rooms', 'devices', 'runs', 'checks', 'price', 'print'] as const;
export type Leg = (typeof LEGS)[number];

/** What is seen of the plan: `scale` screen pixels for one mm, and the place at the top left corner of the board. */
export interface Viewport {
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A part of the board, px from its upper left corner. */
export interface Part {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The short message on the screen. */
export interface Notice {
  readonly id: number;
  readonly tone: 'plain' | 'warning';
  readonly message: Message;
  /** It says why something was not done, or what is next: it is over once something is done. */
  readonly passing?: boolean;
}

/** How the journal stands. */
export type Kept = { readonly state: 'saved' | 'saving' | 'failed'; readonly at: number | null };

/** Which groups of the drawing are shown. */
export interface Shown {
  readonly background: boolean;
  readonly rooms: boolean;
  readonly counts: boolean;
  readonly labels: boolean;
  readonly power: boolean;
  /** The level below, in faint outline. */
  readonly below: boolean;
  /** The small map of the whole level, while a part of it is seen. */
  readonly overview: boolean;
  /** What a cable may do overhead, in place of rooms and walls. */
  readonly ceiling: boolean;
}

/** A drawing under way: undo takes back what was drawn last before it takes back a step. */
export interface Drawing {
  back(): void;
}

/** What is on the screen: the job with its steps, what is previewed, and the state of the board, which no file keeps. */
export interface Session {
  readonly history: History;
  /** The plan as it would be if the gesture ended now; null outside of a gesture. */
  readonly preview: Plan | null;
  /** The newest survey that has arrived; it may be of the plan of a moment ago. */
  readonly survey: Survey | null;
  /** The plan that `survey` is of. */
  readonly surveyed: Plan | null;
  /** What a cable may do overhead on each level, while somebody looks at it; it may be of the plan of a moment ago. */
  readonly planes: readonly CeilingPlane[] | null;
  /** What the backgrounds of a level show, where a tool in hand asks for it; it may be of the level of a moment ago. */
  readonly under: Underlay | null;
  /** The plan as it was when the job was taken in hand: while it is this one, nobody has done anything to it. */
  readonly opened: Plan;
  readonly level: Id;
  readonly leg: Leg;
  /** The tool in hand, and what it places or draws (a kind of device, a kind of pathway). */
  readonly tool: string;
  readonly toolOption: string;
  /** Whether a new room gets the area of the one that was drawn last, not a letter of its own. */
  readonly sameArea: boolean;
  readonly selection: readonly Ref[];
  readonly hover: Ref | null;
  readonly snapping: boolean;
  /** Whether the lines of a background act on a place, too, while snapping does. */
  readonly snapsUnder: boolean;
  readonly shown: Shown;
  readonly viewport: Viewport;
  /** What drawers leave of the board, as it is now; null where none lies over it. */
  freePart(): Part | null;
  /** What is being drawn and is no step of the history yet; null while nothing is. */
  readonly drawing: Drawing | null;
  readonly notices: readonly Notice[];
  readonly kept: Kept;
}

/** Everything that the desk and the board may do to the session. */
export interface SessionActions {
  /** Runs a command and commits its changes as one step; says why in a notice when it cannot. */
  run<N extends CommandName>(name: N, args: CommandArgs<N>, merge?: string): boolean;
  /** What a command would do, without doing it. */
  ask<N extends CommandName>(name: N, args: CommandArgs<N>): Outcome;
  /** Shows changes while a gesture lasts; null drops them. */
  show(changes: Changes | null): void;
  undo(): void;
  redo(): void;
  /** Goes back or forth until so many steps are in force. */
  walk(steps: number): void;
  /** Takes another job in hand. */
  open(history: History): void;
  set(fields: Partial<Omit<Session, 'history' | 'preview'>>): void;
  select(refs: readonly Ref[]): void;
  pick(tool: string, option?: string): void;
  /** Tells something; what is `passing` is over once something is done. */
  say(message: Message, tone?: Notice['tone'], passing?: boolean): void;
  dismiss(id: number): void;
}

export interface SessionStore extends Session {
  readonly actions: SessionActions;
}

export type SessionApi = StoreApi<SessionStore>;

/** The plan that the screen shows: the preview of a gesture, else what is committed. */
export const shownPlan = (session: Session): Plan => session.preview ?? session.history.plan;

/** One and the same, so that whoever watches it does not see it change. */
const LAST_DRAWN = msg('Last point drawn');

/** What undo and redo would take back or do again, in words; null where there is nothing. */
export const undoLabel = ({ drawing, history }: Session): Message | null =>
  drawing ? LAST_DRAWN : (undoable(history)?.label ?? null);
export const redoLabel = ({ drawing, history }: Session): Message | null =>
  drawing ? null : (redoable(history)?.label ?? null);

/** Rows of a selection that are still there. */
const present = (plan: Plan, refs: readonly Ref[]): readonly Ref[] =>
  refs.filter((ref) => plan.tables[ref.table].has(ref.id));

const stillThere = (plan: Plan, level: Id): Id =>
  plan.tables.levels.has(level) ? level : [...plan.tables.levels.keys()][0]!;

/** The one level that changes happen on, if it is not the one that is seen; rows of no level stand on none. */
function levelOf(plan: Plan, changes: Changes, seen: Id): Id | undefined {
  const levels = new Set<Id>();
  for (const { before, after } of changes)
    for (const row of [before, after] as ({ level?: Id; upper?: Id } | null)[]) {
      if (row?.level !== undefined) levels.add(row.level);
      if (row?.upper !== undefined) levels.add(row.upper);
    }
  const there = [...levels].filter((id) => plan.tables.levels.has(id));
  return there.includes(seen) ? undefined : there[0];
}

/** A session over a job. It knows neither the screen nor the disk: whoever draws or saves subscribes. */
export function createSession(kinds: KindRegistry, plan: Plan): SessionApi {
  let notices = 0;
  return createStore<SessionStore>()((set, get) => {
    const move = (history: History, select?: readonly Ref[], level?: Id) =>
      set((s) => ({
        history,
        preview: null,
        selection: present(history.plan, select ?? s.selection),
        hover: null,
        level: stillThere(history.plan, level ?? s.level),
      }));
    /** Shows the level on which a step that is taken back or done again happens, where it does on another alone. */
    const turnTo = (history: History, step: Transaction | null) =>
      move(history, undefined, step ? levelOf(history.plan, step.changes, get().level) : undefined);
    const tell = (told: Omit<Notice, 'id'>) => {
      notices += 1;
      const notice: Notice = { id: notices, ...told };
      const others = get().notices.filter((shown) => !replaces(notice, shown));
      set({ notices: [...others.slice(-3), notice] });
    };
    const actions: SessionActions = {
      ask: (name, args) => {
        const command = commands[name] as (
          p: Plan,
          a: unknown,
          c: { kinds: KindRegistry },
        ) => Outcome;
        return command(get().history.plan, args, { kinds });
      },
      run: (name, args, merge) => {
        const outcome = actions.ask(name, args);
        if (!outcome.ok) {
          set({ preview: null });
          tell({ tone: 'warning', message: outcome.why, passing: true });
          return false;
        }
        const { changes, label, select, level, notice } = outcome;
        move(
          commit(get().history, { label, changes, ...(merge === undefined ? {} : { merge }) }),
          select,
          level,
        );
        const { notices: shown } = get();
        if (shown.some(({ passing }) => passing))
          set({ notices: shown.filter(({ passing }) => !passing) });
        if (notice) actions.say(notice);
        return true;
      },
      show: (changes) =>
        set((s) => ({ preview: changes === null ? null : apply(s.history.plan, changes) })),
      undo: () => {
        const { drawing, history } = get();
        if (drawing) drawing.back();
        else turnTo(undo(history), undoable(history));
      },
      redo: () => {
        const { drawing, history } = get();
        if (!drawing) turnTo(redo(history), redoable(history));
      },
      walk: (steps) => {
        const { history } = get();
        const next = walkTo(history, steps);
        if (next === history) return;
        const [from, to] = [history.cursor, next.cursor].sort((a, b) => a - b) as [number, number];
        // The last step that was passed over is the one that is looked for on the drawing.
        turnTo(next, history.steps[next.cursor < history.cursor ? from : to - 1] ?? null);
      },
      open: (history) => {
        const level = [...history.plan.tables.levels.keys()][0]!;
        set({
          history,
          preview: null,
          selection: [],
          hover: null,
          level,
          survey: null,
          surveyed: null,
          planes: null,
          under: null,
          opened: history.plan,
          tool: 'select',
          toolOption: '',
          sameArea: false,
          // What was said was said of the job before.
          notices: [],
        });
      },
      set: (fields) => set(fields),
      select: (refs) => set((s) => ({ selection: present(shownPlan(s), refs) })),
      pick: (tool, option = '') => set({ tool, toolOption: option, preview: null }),
      say: (message, tone = 'plain', passing = false) => tell({ message, tone, passing }),
      dismiss: (id) => set((s) => ({ notices: s.notices.filter((n) => n.id !== id) })),
    };
    return {
      history: startHistory(plan),
      preview: null,
      survey: null,
      surveyed: null,
      planes: null,
      under: null,
      opened: plan,
      level: [...plan.tables.levels.keys()][0]!,
      leg: 'base',
      tool: 'select',
      toolOption: '',
      sameArea: false,
      selection: [],
      hover: null,
      snapping: true,
      snapsUnder: true,
      shown: {
        background: true,
        rooms: true,
        counts: true,
        labels: true,
        power: true,
        below: true,
        overview: true,
        ceiling: false,
      },
      freePart: () => null,
      drawing: null,
      viewport: { scale: 0.05, left: -1000, top: -1000, width: 1000, height: 700 },
      notices: [],
      kept: { state: 'saved', at: null },
      actions,
    };
  });
}

/** Whether a notice takes the place of an earlier one: one of the same sort, whatever numbers and names it says. */
const replaces = (notice: Notice, shown: Notice): boolean =>
  shown.message.text === notice.message.text;

/** The place in the plan under a place on the board, and back. */
export const toPlan = (view: Viewport, x: number, y: number): Point => [
  view.left + x / view.scale,
  view.top + y / view.scale,
];
export const toBoard = (view: Viewport, at: Point): Point => [
  (at[0] - view.left) * view.scale,
  (at[1] - view.top) * view.scale,
];
