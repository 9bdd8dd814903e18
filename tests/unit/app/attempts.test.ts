import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createAttempts } from '../../../src/app/attempts.ts';
import { trouble } from '../../../src/app/pictures/trouble.ts';
import { msg, renderMessage } from '../../../src/base/message.ts';
import { createSession } from '../../../src/board/session.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const UNDER = msg('Writing the list …');
const long = (ms: number) => new Promise<string>((done) => setTimeout(() => done('done'), ms));

function bench() {
  const session = createSession(kinds, emptyPlan());
  const said = () => session.getState().notices.map(({ message }) => renderMessage(message, 'ft'));
  return { ...createAttempts(session), said };
}

test('what takes long is said until it is over, and what does not is not', async () => {
  const { attempt, said } = bench();
  const short = attempt(UNDER, () => long(100));
  await vi.advanceTimersByTimeAsync(5000);
  expect(await short).toBe('done');
  expect(said()).toEqual([]);
  const slow = attempt(UNDER, () => long(2000));
  await vi.advanceTimersByTimeAsync(1000);
  expect(said()).toEqual(['Writing the list …']);
  await vi.advanceTimersByTimeAsync(1000);
  expect(await slow).toBe('done');
  expect(said()).toEqual([]);
});

test('nothing is said to be under way while it waits for the user', async () => {
  const { attempt, said } = bench();
  const asked = attempt(null, () => long(60_000));
  await vi.advanceTimersByTimeAsync(59_000);
  expect(said()).toEqual([]);
  await vi.advanceTimersByTimeAsync(1000);
  expect(await asked).toBe('done');
});

test('what went wrong is said in its own words, or in those of the error, and answers null', async () => {
  const { attempt, said } = bench();
  expect(await attempt(UNDER, async () => trouble('“{name}” is empty.', { name: 'a' }))).toBeNull();
  expect(await attempt(null, () => Promise.reject(new Error('no wire')))).toBeNull();
  expect(said()).toEqual([
    '“a” is empty.',
    'That did not work: no wire. The open job is untouched.',
  ]);
});
