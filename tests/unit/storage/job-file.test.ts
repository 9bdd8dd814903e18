import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { msg } from '../../../src/base/message.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { apply } from '../../../src/plan/change.ts';
import { writePlan } from '../../../src/plan/codec.ts';
import { commands } from '../../../src/plan/commands/index.ts';
import { commit, startHistory, undo } from '../../../src/plan/history.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { assetsOfHistory, hashOf, memoryAssets } from '../../../src/storage/assets.ts';
import { fromBase64, toBase64 } from '../../../src/storage/base64.ts';
import { fileName } from '../../../src/storage/file-name.ts';
import { inOneSentence, readJob, writeJob } from '../../../src/storage/job-file.ts';

const known = new Set(kinds.keys());
const bytes = Uint8Array.from({ length: 5000 }, (_, i) => (i * 31) % 251);

function withBackground(hash: string) {
  const outcome = commands['add-background'](
    emptyPlan(),
    { level: 'L1', name: 'First plan', asset: hash, width: 100, height: 50 },
    { kinds },
  );
  if (!outcome.ok) throw new Error('no background');
  return outcome;
}

async function job(): Promise<{ plan: Plan; hash: string }> {
  const hash = await hashOf(bytes);
  return { plan: apply(emptyPlan(), withBackground(hash).changes), hash };
}

describe('a job file', () => {
  test('gives back the plan and its pictures byte for byte', async () => {
    const { plan, hash } = await job();
    const store = memoryAssets();
    await store.put({ hash, name: 'plan.png', type: 'image/png', bytes });
    const text = await writeJob(plan, store);
    const back = await readJob(text.ok ? text.value : '', known);
    expect(back.ok && back.value).toEqual({
      plan,
      assets: [{ hash, name: 'plan.png', type: 'image/png', bytes }],
    });
  });

  test('is not written without a picture that the plan shows', async () => {
    const { plan } = await job();
    const text = await writeJob(plan, memoryAssets());
    expect(text.ok).toBe(false);
    expect(!text.ok && inOneSentence(text.issues)).toContain('no longer on this device');
  });

  test('is refused when the bytes of a picture are not those of its name', async () => {
    const { plan, hash } = await job();
    const data = toBase64(bytes.map((b, i) => (i === 77 ? b ^ 1 : b)));
    const text = writePlan(plan, new Map([[hash, { name: 'plan.png', type: 'image/png', data }]]));
    const back = await readJob(text, known);
    expect(!back.ok && back.issues[0]?.code).toBe('damaged-picture');
  });

  test('is refused when a picture is no base64, however much it looks like it', async () => {
    const { plan, hash } = await job();
    const data = toBase64(bytes).slice(0, -3);
    const text = writePlan(plan, new Map([[hash, { name: 'plan.png', type: 'image/png', data }]]));
    expect((await readJob(text, known)).ok).toBe(false);
  });

  test('reports the first issue of many and counts the others', () => {
    const issue = (n: number) => ({ code: 'bad-value', path: '', message: `Number ${n}.` });
    expect(inOneSentence([issue(1)])).toBe('Number 1.');
    expect(inOneSentence([issue(1), issue(2), issue(3)])).toBe('Number 1. And 2 more.');
  });
});

describe('pictures', () => {
  test('are named by the first 32 hex digits of their SHA-256', async () => {
    // FIPS 180-4 example: SHA-256("abc") = ba7816bf 8f01cfea 414140de 5dae2223 b00361a3 …
    expect(await hashOf(new TextEncoder().encode('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223');
  });

  test('that undo or redo may show again are still wanted', async () => {
    const { changes } = withBackground('0123456789abcdef');
    const start = startHistory(emptyPlan());
    const shown = commit(start, { label: msg('Add background'), changes });
    expect([...assetsOfHistory(undo(shown))]).toEqual(['0123456789abcdef']);
    expect([...assetsOfHistory(start)]).toEqual([]);
  });

  test('that nothing wants are forgotten, and no others', async () => {
    const store = memoryAssets();
    for (const hash of ['a', 'b']) await store.put({ hash, name: '', type: 'image/png', bytes });
    await store.prune(new Set(['b']));
    expect([await store.get('a'), (await store.get('b'))?.hash]).toEqual([null, 'b']);
  });

  test('go to base64 and back, whatever their length', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 100 }), (some) => {
        expect(toBase64(some)).toBe(Buffer.from(some).toString('base64'));
        expect(fromBase64(toBase64(some))).toEqual(some);
      }),
      { seed: 20_264 },
    );
    const long = new Uint8Array(100_001).map((_, i) => i);
    expect(fromBase64(toBase64(long))).toEqual(long);
  });
});

describe("a file's name", () => {
  test.each([
    ['Corner Kitchen & Bar', 'Corner Kitchen & Bar.csv'],
    ['North/South: "bar" <1>', 'North South bar 1.csv'],
    ['  Café \u0000 Ñandú  ', 'Café Ñandú.csv'],
    ['Level 2...', 'Level 2.csv'],
    ['', 'Untitled job.csv'],
    ['///', 'Untitled job.csv'],
    ['CON', 'Untitled job.csv'],
  ])('of the job "%s" is %s', (words, name) => {
    expect(fileName(words, '.csv')).toBe(name);
  });

  test('is short enough for any system, and ends with a whole letter', () => {
    expect(fileName(`a${'😀'.repeat(99)}`, '.csv')).not.toMatch(/\p{Surrogate}/u);
    expect(fileName('long '.repeat(100), '.csv').length).toBeLessThan(100);
  });
});
