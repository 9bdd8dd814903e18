import type { Id } from '../../base/ids.ts';
import type { Message } from '../../base/message.ts';
import type { Changes } from '../change.ts';
import type { KindFacts } from '../kind-facts.ts';
import type { Plan, Ref } from '../plan.ts';

/** What a command may ask besides the plan. */
export interface CommandContext {
  readonly kinds: ReadonlyMap<string, KindFacts>;
}

/** Either the changes with the name of the step and what to select after it, or why it cannot be done. */
export type Outcome =
  | {
      readonly ok: true;
      readonly changes: Changes;
      readonly label: Message;
      readonly select?: readonly Ref[];
      /** The level to be shown after it, where the step is about one. */
      readonly level?: Id;
      /** Words for a notice, where the step did something beyond what was asked. */
      readonly notice?: Message;
    }
  | { readonly ok: false; readonly why: Message };

/**
 * A change that somebody can ask for. Pure: it answers with changes and carries nothing out, so a menu that only
 * wants to know whether it could, a drag that previews and a script that commits all call the same function.
 */
export type Command<Args> = (plan: Plan, args: Args, context: CommandContext) => Outcome;
