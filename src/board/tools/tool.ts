import type { Id } from '../../base/ids.ts';
import type { Message } from '../../base/message.ts';
import type { Mark } from '../../drawing/display.ts';
import type { Point } from '../../geometry/point.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import type { Changes } from '../../plan/change.ts';
import type { CommandArgs, CommandName } from '../../plan/commands/index.ts';
import type { Plan, Ref } from '../../plan/plan.ts';

/** What reaches a tool: places are in the plan, already snapped where snapping acted, with the raw place beside. */
export type ToolEvent =
  | {
      readonly type: 'press' | 'move' | 'release';
      readonly at: Point;
      readonly raw: Point;
      readonly shift: boolean;
      readonly ctrl: boolean;
      readonly touch: boolean;
    }
  | { readonly type: 'double'; readonly at: Point; readonly raw: Point }
  | { readonly type: 'key'; readonly key: string; readonly shift: boolean; readonly ctrl: boolean }
  /** A length that was typed while drawing, mm. */
  | { readonly type: 'length'; readonly mm: number }
  /** Escape, another tool, or a second finger. */
  | { readonly type: 'cancel' };

/** What a tool may look at; it changes nothing itself. */
export interface ToolContext {
  readonly plan: Plan;
  readonly kinds: KindRegistry;
  readonly level: Id;
  /** What the tool places or draws, from the shelf. */
  readonly option: string;
  readonly selection: readonly Ref[];
  /** One screen pixel in mm, for reach round the pointer. */
  readonly pixel: number;
  /** What lies under a place, topmost first. */
  hit(at: Point, touch: boolean): readonly Ref[];
  /** What a box holds: only what lies wholly inside, or all that it touches. */
  inBox(a: Point, b: Point, touching: boolean): readonly Ref[];
}

/** What a tool asks for. Somebody else does it. */
export type ToolEffect =
  | {
      readonly do: 'run';
      readonly command: {
        readonly [N in CommandName]: { readonly name: N; readonly args: CommandArgs<N> };
      }[CommandName];
      readonly merge?: string;
    }
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
  | { readonly do: 'say'; readonly message: Message }
  | { readonly do: 'done' };

/**
 * A board tool: a pure state machine. A file in this folder and a line in `index.ts`; the shelf, the keys and the help
 * read the registry.
 */
export interface Tool<State = unknown> {
  readonly id: string;
  readonly label: Message;
  /** The key that picks it; empty for none. */
  readonly key: string;
  readonly cursor: 'default' | 'crosshair' | 'move' | 'grab';
  readonly start: State;
  next(
    state: State,
    event: ToolEvent,
    context: ToolContext,
  ): readonly [State, readonly ToolEffect[]];
  /** What it shows while it runs, in building mm. */
  overlay(state: State, context: ToolContext): readonly Mark[];
  /** The place from which a typed length and right angles are measured; null where none. */
  anchor(state: State): Point | null;
}
