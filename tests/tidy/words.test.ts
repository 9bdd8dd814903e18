import { createHash } from 'node:crypto';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectFiles, ROOT, read } from './source.ts';

const BINARY = /\.(png|jpe?g|pdf|woff2?|ttf|otf|wasm|ico|zip)$/;
const texts = projectFiles()
  .filter((path) => path !== 'package-lock.json' && !BINARY.test(path))
  .filter((path) => statSync(join(ROOT, path), { throwIfNoEntry: false })?.isFile())
  .map((path) => ({ path, text: read(path) }));

const hash = (word: string): string => createHash('sha256').update(word).digest('hex').slice(0, 20);

/**
 * Words that stand nowhere in the project: the names of others' products, kept as hashes so that they do not stand
 * here either, and what others call the short message that is a notice here.
 */
const BANNED = new Set([
  'de09c12648bc3b6c636b',
  'e73b79a0b10f8cdb6ac7',
  'a60ec1cf58f49cd2fab6',
  hash(['t', 'oast'].join('')),
  hash(['t', 'oasts'].join('')),
]);

/** The words of a text; names in code come apart at their capitals. */
const wordsOf = (text: string): Set<string> =>
  new Set((text.match(/[A-Z]?[a-z]+|[A-Z]+(?![a-z])/g) ?? []).map((word) => word.toLowerCase()));

const lines = (pattern: RegExp, except: RegExp = /^$/): string[] =>
  texts
    .filter(({ path }) => !except.test(path))
    .flatMap(({ path, text }) =>
      text
        .split('\n')
        .flatMap((line, i) =>
          pattern.test(line) ? [`${path}:${i + 1} ${line.trim().slice(0, 120)}`] : [],
        ),
    );

describe('the words of the project', () => {
  it('are found by this test when they are there', () => {
    expect([...wordsOf('showT' + 'oast(x)')].some((word) => BANNED.has(hash(word)))).toBe(true);
  });

  it('name no product of others, and no short message but the notice', () => {
    const known = new Map<string, boolean>();
    const banned = (word: string): boolean => {
      if (!known.has(word)) known.set(word, BANNED.has(hash(word)));
      return known.get(word)!;
    };
    expect(texts.filter(({ text }) => [...wordsOf(text)].some(banned)).map((f) => f.path)).toEqual(
      [],
    );
  });

  it('name no folder of a machine on which it was written', () => {
    expect(lines(/(^|[^\w.])\/(work|tmp|root|home|Users)\/\w/)).toEqual([]);
  });

  it('speak of the project, not of how the work on it was handed out', () => {
    const asked =
      /\b(issue|ticket|task) #?\d|\b(in|as|per) the (brief|issue|prompt)\b|\bsub-?agents?\b/i;
    expect(lines(asked, /tidy\/words/)).toEqual([]);
  });

  it('leave nothing for later without saying what: no marks such as to-do', () => {
    expect(lines(/\b(TODO|FIXME|XXX|HACK)\b/, /tidy\/words/)).toEqual([]);
  });
});

describe('the lock file', () => {
  it('names no host from which packages came', () => {
    expect(read('package-lock.json')).not.toMatch(/"resolved"/);
  });
});
