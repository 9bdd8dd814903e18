import { type Message, msg } from '../../base/message.ts';

/** Why a file cannot be taken, in words for a notice. */
export class Trouble extends Error {
  readonly words: Message;

  constructor(words: Message) {
    super(words.text);
    this.name = 'Trouble';
    this.words = words;
  }
}

/** Throws the words. */
export function trouble(text: string, params: Message['params'] = {}): never {
  throw new Trouble(msg(text, params));
}
