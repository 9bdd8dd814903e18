import { describe, expect, test } from 'vitest';
import { renderMessage } from '../../../src/base/message.ts';
import type { History } from '../../../src/plan/history.ts';
import type { JournalPort } from '../../../src/ports/ports.ts';
import { createJournal } from '../../../src/storage/journal.ts';
import { TakenOver } from '../../../src/storage/journal-store.ts';
import { createKeeper, type KeepState } from '../../../src/storage/keeper.ts';
import { FakeStore } from './fake-store.ts';
import { blank, place, shape } from './jobs.ts';

/** A journal whose writes end when the test says so. */
function slowJournal() {
  const written: History[] = [];
  const waiting: { end(error?: Error): void }[] = [];
  const journal: JournalPort = {
    load: async () => null,
    begin: async () => undefined,
    record: (history) => {
      written.push(history);
      return new Promise((done, fail) =>
        waiting.push({ end: (error) => (error ? fail(error) : done()) }),
      );
    },
  };
  const end = async (error?: Error) => {
    waiting.shift()!.end(error);
    await new Promise((next) => setTimeout(next));
  };
  return { journal, written, end };
}

function keeperOver(journal: JournalPort, start: History) {
  const told: KeepState[] = [];
  const keeper = createKeeper(journal, start, (state) => told.push(state));
  return { keeper, told, states: () => told.map((t) => t.state) };
}

describe('the keeper', () => {
  test('writes states that come while it writes together, the newest alone', async () => {
    const { journal, written, end } = slowJournal();
    const start = blank();
    const [a, b, c] = [place(start, 1), place(start, 2), place(start, 3)];
    const { keeper, states } = keeperOver(journal, start);
    keeper.keep(a);
    keeper.keep(b);
    keeper.keep(c);
    await end();
    await end();
    await keeper.settled();
    expect(written).toEqual([a, c]);
    expect(states()).toEqual(['saving', 'saved']);
  });

  test('writes nothing for a state that is kept already', async () => {
    const { journal, written } = slowJournal();
    const start = blank();
    keeperOver(journal, start).keeper.keep(start);
    expect(written).toEqual([]);
  });

  test('says why a state is not kept, and writes it with the next one', async () => {
    const { journal, written, end } = slowJournal();
    const start = blank();
    const { keeper, told, states } = keeperOver(journal, start);
    keeper.keep(place(start, 1));
    await end(new DOMException('full', 'QuotaExceededError'));
    await keeper.settled();
    const last = told.at(-1)!;
    expect(last.state === 'failed' && renderMessage(last.why, 'ft')).toContain('no room left');
    const next = place(start, 2);
    keeper.keep(next);
    await end();
    expect(written.at(-1)).toBe(next);
    expect(states()).toEqual(['saving', 'failed', 'saving', 'saved']);
  });

  test('writes the state before a failure again when undo goes back to it', async () => {
    const store = new FakeStore();
    const journal = createJournal(store, 'writer');
    await journal.load();
    const start = blank();
    await journal.begin(start);
    const { keeper } = keeperOver(journal, start);
    store.failAt = store.operations + 1;
    store.fault = 'after';
    keeper.keep(place(start, 1));
    await keeper.settled();
    keeper.keep(start);
    await keeper.settled();
    const found = await createJournal(store, 'reader').load();
    expect(shape(found!.history!)).toBe(shape(start));
  });

  test('stops for good when another tab has taken the job over', async () => {
    const { journal, written, end } = slowJournal();
    const start = blank();
    const { keeper, states } = keeperOver(journal, start);
    keeper.keep(place(start, 1));
    await end(new TakenOver());
    keeper.keep(place(start, 2));
    await keeper.settled();
    expect(written).toHaveLength(1);
    expect(states()).toEqual(['saving', 'taken']);
  });
});
