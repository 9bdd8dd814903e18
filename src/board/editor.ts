import type { Message } from '../base/message.ts';
import type { Mark } from '../drawing/display.ts';
import type { Point } from '../geometry/point.ts';
import type { Ref } from '../plan/plan.ts';
import type { Snapped } from './snap.ts';
import type { Tool, ToolEffect } from './tools/tool.ts';

/** Keys held with a step of the pointer, and whether it is a finger. */
export interface Held {
  readonly shift?: boolean;
  readonly ctrl?: boolean;
  readonly touch?: boolean;
  /** The place is meant as it is: nothing near it acts on it. */
  readonly exact?: boolean;
}

/** A known length that was drawn on a background: its two ends. */
export type LengthRequest = Extract<ToolEffect, { do: 'ask-length' }>;

/** What somebody answered: the real length, mm, and whether what is drawn goes along with the picture. */
export interface LengthAnswer {
  readonly length: number;
  readonly follow: boolean;
}

/** Four corners that were set on a photo. */
export type StraightenRequest = Extract<ToolEffect, { do: 'straighten' }>;

/** What the editor asks of whoever holds it. */
export interface EditorPorts {
  /** Whether the device is worked with fingers, as far as one knows before the first of them. */
  readonly finger?: boolean;
  /** Asks for the real length of a line; null when the user thinks better of it. */
  askLength(request: LengthRequest): Promise<LengthAnswer | null>;
  /** Makes a photo upright, and puts it in the place of the one that was there. */
  straighten(request: StraightenRequest): void;
}

/** What the board shows of the gesture that runs. */
export interface EditorView {
  readonly tool: Tool;
  readonly overlay: readonly Mark[];
  readonly snapped: Snapped | null;
  /** What was typed so far. */
  readonly typed: string;
  readonly hint: Message;
  /** Whether a gesture has begun, and whether a typed length would mean something in it. */
  readonly busy: boolean;
  readonly measuring: boolean;
  /** Where a typed length would begin. */
  readonly anchor: Point | null;
  /** Where a drawing would begin that begins with a typed length; null where the tool takes none or none was said. */
  readonly stand: Point | null;
}

/**
 * Runs the tool in hand over a session: hands it events with snapped places, and does what it asks. It knows no screen:
 * whoever sees pointers and keys calls in, and draws what `view` says.
 */
export interface Editor {
  press(raw: Point, held?: Held): void;
  move(raw: Point, held?: Held): void;
  release(raw: Point, held?: Held): void;
  double(raw: Point): void;
  /** A key while the board has the focus; true when it meant something here. */
  key(key: string, held?: Held): boolean;
  /** A whole length that was typed elsewhere, as in a field for fingers. */
  typeLength(text: string): void;
  /** What was typed, in the direction of an arrow: draws so far, or before anything is drawn moves the stand so far. */
  typedToward(by: Point): void;
  /** The next drawing that is typed begins here. */
  standAt(at: Point): void;
  /** The next corner from a place in a direction; null where there is none. */
  cornerToward(from: Point, by: Point): Point | null;
  /** A second finger or a lost pointer. */
  abandon(): void;
  /** Escape: first what is typed, then the gesture, then the tool, then the selection. */
  cancel(): void;
  /** The pointer has left the board. */
  leave(): void;
  /** A finger was lifted: what marked its place goes, unless a drawing is under way. */
  lift(): void;
  /** Where the pointer is, mm; null when it is not over the board. */
  pointer(): Point | null;
  /** What lies under a place, topmost first. */
  hit(raw: Point, touch: boolean): readonly Ref[];
  /** Tells where symbols are drawn that stand aside from their own place. */
  drawnAt(places: ReadonlyMap<string, Point>): void;
  view(): EditorView;
  subscribe(listener: () => void): () => void;
  dispose(): void;
}
