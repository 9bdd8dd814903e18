import type { Id } from '../../base/ids.ts';
import type { Message } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import type { Corners } from '../../geometry/homography.ts';
import type { Point } from '../../geometry/point.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import type { Changes } from '../../plan/change.ts';
import type { CommandArgs, CommandName } from '../../plan/commands/index.ts';
import type { Plan, Ref } from '../../plan/plan.ts';
import type { Offers } from '../offers.ts';
import type { SnapKind } from '../snap-targets.ts';

/** A step of a pointer: places are in the plan, already snapped where snapping acted, with the raw place beside. */
export interface PointerStep {
  readonly type: 'press' | 'move' | 'release';
  readonly at: Point;
  readonly raw: Point;
  readonly shift: boolean;
  readonly ctrl: boolean;
  readonly touch: boolean;
}

/** What reaches a tool. */
export type ToolEvent =
  | PointerStep
  | { readonly type: 'double'; readonly at: Point; readonly raw: Point }
  | { readonly type: 'key'; readonly key: string; readonly shift: boolean; readonly ctrl: boolean }
  /** A length that was typed while drawing, mm; a second one where two were typed, as in `12 x 9`. */
  | {
      readonly type: 'length';
      readonly mm: number;
      readonly second?: number;
      /** The direction that came with it, typed or by an arrow, in degrees clockwise from x; else the pointer's. */
      readonly angle?: number;
    }
  /** A second finger or a lost pointer: the press that runs does not count; what was drawn before it stays. */
  | { readonly type: 'abandon' }
  /** Escape, or another tool: back to the start. */
  | { readonly type: 'cancel' };

/** What a tool may look at; it changes nothing itself. */
export interface ToolContext {
  readonly plan: Plan;
  readonly kinds: KindRegistry;
  readonly level: Id;
  /** What the tool places or draws, from the shelf. */
  readonly option: string;
  /** The area of the room that is drawn next; null gives it a letter of its own. */
  readonly area: string | null;
  readonly selection: readonly Ref[];
  /** One screen pixel in mm, for reach round the pointer. */
  readonly pixel: number;
  /** What lies under a place, topmost first. */
  hit(at: Point, touch: boolean): readonly Ref[];
  /** What a box holds: only what lies wholly inside, or all that it touches. */
  inBox(a: Point, b: Point, touching: boolean): readonly Ref[];
  /** The walls that the background seems to show and nobody has drawn yet. */
  offers(): Offers;
}

/** A command with its arguments. */
export type Call = {
  readonly [N in CommandName]: { readonly name: N; readonly args: CommandArgs<N> };
}[CommandName];

/** What a tool asks for. Somebody else does it. */
export type ToolEffect =
  | { readonly do: 'run'; readonly command: Call; readonly merge?: string }
  | { readonly do: 'preview'; readonly changes: Changes | null }
  | { readonly do: 'select'; readonly refs: readonly Ref[] }
  | { readonly do: 'hover'; readonly ref: Ref | null }
  /** Asks for the real length of a line just drawn; the answer runs the command. */
  | {
      readonly do: 'ask-length';
      readonly for: 'set-scale' | 'check-scale';
      readonly background: Id;
      readonly a: Point;
      readonly b: Point;
    }
  /** Asks for a photo to be made upright: these corners of it, in its pixels, become those of a new picture. */
  | { readonly do: 'straighten'; readonly background: Id; readonly corners: Corners }
  | { readonly do: 'say'; readonly message: Message }
  /** Where the next drawing begins when it begins with a typed length; the corner near it, where there is one. */
  | { readonly do: 'stand'; readonly at: Point }
  /** Moves what is seen, mm. */
  | { readonly do: 'pan'; readonly by: Point }
  /** The tool has done what it is for: back to the select tool. */
  | { readonly do: 'done' };

/** A way to use a tool that the shelf offers. */
export interface ToolOption {
  readonly id: string;
  readonly label: Message;
}

/**
 * A board tool: a pure state machine. A file in this folder and a line in `index.ts`; the shelf, the keys and the help
 * read the registry.
 */
export interface Tool<State = unknown> {
  readonly id: string;
  readonly label: Message;
  /** The key that picks it, such as `w` or `Shift+N`; empty for none. */
  readonly key: string;
  /** What it can be told to place or draw, the first by itself; left out where that comes from elsewhere. */
  readonly options?: readonly ToolOption[];
  readonly cursor: 'default' | 'crosshair' | 'move' | 'grab';
  readonly start: State;
  /** Whether a state other than the start is one in which no gesture has begun, as one that knows what it points at. */
  waits?(state: State): boolean;
  /** Whether a state shows what is drawn to its end, or nothing that is drawn, so that undo has nothing to take back. */
  over?(state: State): boolean;
  next(
    state: State,
    event: ToolEvent,
    context: ToolContext,
  ): readonly [State, readonly ToolEffect[]];
  /** What it shows while it runs, in building mm. */
  overlay(state: State, context: ToolContext): readonly Mark[];
  /** The place from which a typed length and right angles are measured; null where none. */
  anchor(state: State): Point | null;
  /** A typed length means nothing in it, though it has an anchor for right angles. */
  readonly lengths?: false;
  /** Enter alone ends nothing in it, so that no button for that is shown while it is at work. */
  readonly ends?: false;
  /** Whether a typed length begins a drawing, at the place where the last one left off. */
  readonly typedFirst?: true;
  /** What the next place snaps to; empty for nothing. */
  snaps(state: State): readonly SnapKind[];
  /**
   * What it carries: `at` of a move is then the place of the carried point, `offset` from the pointer, and the carried
   * rows are no targets for snapping.
   */
  carried?(state: State): { readonly offset: Point; readonly refs: readonly Ref[] } | null;
  /** One short line that says what to do next. */
  hint(state: State, context: ToolContext): Message;
}
