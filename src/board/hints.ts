import type { Message } from '../base/message.ts';

/** Sentences that only a keyboard understands. */
const KEYS = /\b(?:Esc|Shift|Ctrl|Backspace|Space)\b/;

/** Words for a pointer, and those for a finger. */
const WORDS: readonly (readonly [RegExp, string])[] = [
  [/\bEnter\b/g, 'Finish'],
  [/\bClicks\b/g, 'Taps'],
  [/\bclicks\b/g, 'taps'],
  [/\bClick\b/g, 'Tap'],
  [/\bclick\b/g, 'tap'],
];

/**
 * Words about what to do next, said to a finger: it taps where a mouse clicks, it has a button where a keyboard has
 * Enter, and of other keys it hears nothing. A message that is about keys alone keeps its sentences.
 */
export function forFinger(message: Message): Message {
  const sentences = message.text.split(/(?<=\.) /);
  const heard = sentences.filter((sentence) => !KEYS.test(sentence));
  const text = (heard.length > 0 ? heard : sentences).join(' ');
  return { ...message, text: WORDS.reduce((now, [word, by]) => now.replace(word, by), text) };
}
