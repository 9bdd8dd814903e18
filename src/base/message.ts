import { formatLength, type Units } from './units.ts';

/** A value in a message: words as they are, numbers, or a length that is shown in the job's units. */
export type Param = string | number | { readonly mm: number };

/** Words with named gaps: `Run {label} is {actual}.` The text is the English source and the translators' key. */
export interface Message {
  readonly text: string;
  readonly params: Readonly<Record<string, Param>>;
}

/** A message from its words and the values for their gaps. */
export const msg = (text: string, params: Readonly<Record<string, Param>> = {}): Message => ({
  text,
  params,
});

/** Fills the gaps; a gap without a value stays visible, so that a test finds it. */
export function renderMessage(message: Message, units: Units): string {
  return message.text.replace(/\{(\w+)\}/g, (gap, name: string) => {
    const value = message.params[name];
    if (value === undefined) return gap;
    if (typeof value === 'object') return formatLength(value.mm, units);
    return String(value);
  });
}
