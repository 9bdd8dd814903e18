import { cutShort } from '../base/cut-short.ts';

/** Characters that some system forbids in a file's name. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
const FORBIDDEN = /[\u0000-\u001f\u007f<>:"/\\|?*]+/g;
/** Names that Windows keeps for devices. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/** A file's name after the job: its words, without what some system forbids, then the ending. */
export function fileName(job: string, ending: string): string {
  const plain = job.replace(FORBIDDEN, ' ').replace(/\s+/g, ' ').trim();
  const words = cutShort(plain, 80).replace(/[. ]+$/, '');
  return `${words === '' || RESERVED.test(words) ? 'Untitled job' : words}${ending}`;
}
