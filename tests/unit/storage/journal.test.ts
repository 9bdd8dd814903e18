import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { msg } from '../../../src/base/message.ts';
import { commit, DEPTH, type History, startHistory, undo } from '../../../src/plan/history.ts';
import { createJournal } from '../../../src/storage/journal.ts';
import { TakenOver } from '../../../src/storage/journal-store.ts';
import { FakeStore, type Fault } from './fake-store.ts';
import { act, blank, deeds, place, rename, shape } from './jobs.ts';

async function load(store: FakeStore) {
  return createJournal(store, 'reader').load();
}

/** The states of a job as it grows by placing devices, with some undone and renamed in between. */
function states(count: number): History[] {
  const all = [blank()];
  for (let n = 1; n < count; n++) {
    const last = all.at(-1)!;
    all.push(n % 7 === 0 ? undo(last) : n % 5 === 0 ? rename(last, `Job ${n}`) : place(last, n));
  }
  return all;
}

async function kept(history: readonly History[]): Promise<FakeStore> {
  const store = new FakeStore();
  const journal = createJournal(store, 'writer');
  await journal.load();
  await journal.begin(history[0]!);
  for (const state of history.slice(1)) await journal.record(state);
  return store;
}

describe('the journal', () => {
  test('says that a device without a job has none', async () => {
    expect(await load(new FakeStore())).toBeNull();
  });

  test('gives back any session as it was left: rows in order, steps, and how many are in force', async () => {
    await fc.assert(
      fc.asyncProperty(deeds, async (list) => {
        const all = [blank()];
        for (const deed of list) all.push(act(all.at(-1)!, deed));
        const found = await load(await kept(all));
        expect(found!.lost).toBe(0);
        expect(shape(found!.history!)).toBe(shape(all.at(-1)!));
      }),
      { seed: 20_261, numRuns: 60 },
    );
  });

  test('gives back a session of which only some states were written', async () => {
    await fc.assert(
      fc.asyncProperty(deeds, fc.infiniteStream(fc.boolean()), async (list, written) => {
        let state = blank();
        const all = [state];
        for (const deed of list) {
          state = act(state, deed);
          if (written.next().value) all.push(state);
        }
        all.push(state);
        const found = await load(await kept(all));
        expect(shape(found!.history!)).toBe(shape(state));
      }),
      { seed: 20_262, numRuns: 60 },
    );
  });

  test('keeps what can be undone when steps beyond the depth of the history fall off its front', async () => {
    const all = states(560);
    const found = await load(await kept(all));
    expect(all.at(-1)!.steps.length).toBeLessThan(560);
    expect(shape(found!.history!)).toBe(shape(all.at(-1)!));
  });

  test('follows a session that took everything back, did it again and went on past the depth', async () => {
    let full = blank();
    for (let n = 0; n < DEPTH; n++) full = rename(full, `Job ${n}`, `name ${n}`);
    let start = full;
    while (start.cursor > 0) start = undo(start);
    const on = place(full, 1);
    expect(on.steps.length).toBe(DEPTH);
    const store = await kept([start, on]);
    expect(store.slots.steps.size).toBe(1);
    expect(shape((await load(store))!.history!)).toBe(shape(on));
  });

  test('keeps few records, however long the session', async () => {
    const store = await kept(states(400));
    expect(store.slots.snapshots.size).toBe(2);
    expect(store.slots.steps.size).toBeLessThanOrEqual(128);
  });

  test('cut after any record, loads the job as it was at that record', async () => {
    const all = states(40);
    const store = await kept(all);
    const seqs = [...store.slots.steps.keys()].sort((a, b) => a - b);
    expect(seqs.length).toBe(39);
    for (let n = 0; n <= seqs.length; n++) {
      const cut = store.reopened();
      for (const seq of seqs.slice(n)) cut.slots.steps.delete(seq);
      const found = await load(cut);
      expect(found!.lost).toBe(0);
      expect(shape(found!.history!)).toBe(shape(all[n]!));
    }
  });

  test('cut inside any record, loads the job as it was before that record and counts what is lost', async () => {
    const all = states(40);
    const store = await kept(all);
    const seqs = [...store.slots.steps.keys()].sort((a, b) => a - b);
    for (const [n, seq] of seqs.entries()) {
      const record = store.slots.steps.get(seq)!;
      for (const at of [0, 1, Math.floor(record.text.length / 2), record.text.length - 1]) {
        const cut = store.reopened();
        cut.slots.steps.set(seq, { ...record, text: record.text.slice(0, at) });
        const found = await load(cut);
        expect(found!.lost).toBe(seqs.length - n);
        expect(shape(found!.history!)).toBe(shape(all[n]!));
      }
    }
  });

  test('believes no step whose words were changed, though they still read well', async () => {
    const all = states(6);
    const store = await kept(all);
    const last = Math.max(...store.slots.steps.keys());
    const record = store.slots.steps.get(last)!;
    store.slots.steps.set(last, { ...record, text: record.text.replace('Job 5', 'Job 6') });
    const found = await load(store);
    expect(found!.lost).toBe(1);
    expect(shape(found!.history!)).toBe(shape(all.at(-2)!));
  });

  test('says that a step is not kept when it does not read back as it was written', async () => {
    const store = new FakeStore();
    const journal = createJournal(store, 'writer');
    await journal.load();
    await journal.begin(blank());
    store.failAt = store.operations + 1;
    store.fault = 'silent';
    await expect(journal.record(place(blank(), 1))).rejects.toThrow('read back');
  });

  test('loses nothing by a damaged newest snapshot: the older one and the steps since are there', async () => {
    const all = states(200);
    const store = await kept(all);
    const newest = Math.max(...store.slots.snapshots.keys());
    const record = store.slots.snapshots.get(newest)!;
    store.slots.snapshots.set(newest, { ...record, text: record.text.replace('L1', 'L2') });
    const found = await load(store);
    expect(found!.lost).toBe(0);
    expect(shape(found!.history!)).toBe(shape(all.at(-1)!));
  });

  test('says that a job is there but cannot be read when every snapshot is damaged', async () => {
    const store = await kept(states(10));
    for (const [seq, record] of store.slots.snapshots)
      store.slots.snapshots.set(seq, { ...record, sum: record.sum ^ 1 });
    expect(await load(store)).toEqual({ history: null, lost: 10 });
  });

  test('takes no step left over from another past, even one that would fit', async () => {
    const all = [blank()];
    for (let n = 1; n <= 8; n++) all.push(place(all.at(-1)!, n));
    const store = await kept(all);
    const seqs = [...store.slots.steps.keys()].sort((a, b) => a - b);
    store.slots.steps.set(seqs[5]!, { ...store.slots.steps.get(seqs[5]!)!, text: 'damaged' });
    const journal = createJournal(store, 'next');
    const found = await journal.load();
    const other = place(found!.history!, 99);
    await journal.record(other);
    expect(shape((await load(store))!.history!)).toBe(shape(other));
  });

  test('does not fall back to a job whose beginning was reported as failed', async () => {
    const store = new FakeStore();
    const journal = createJournal(store, 'writer');
    await journal.load();
    const mine = place(blank(), 1);
    await journal.begin(mine);
    store.failAt = store.operations + 1;
    store.fault = 'after';
    await expect(journal.record(startHistory(place(blank(), 5).plan))).rejects.toThrow('failed');
    const on = place(mine, 2);
    await journal.record(on);
    expect(shape((await load(store))!.history!)).toBe(shape(on));
  });

  test('starts anew when a state does not follow from the one before', async () => {
    const store = new FakeStore();
    const journal = createJournal(store, 'writer');
    await journal.load();
    await journal.begin(states(20).at(-1)!);
    const other = place(startHistory(place(blank(), 5).plan), 3);
    await journal.record(other);
    const found = await load(store);
    expect(found!.lost).toBe(0);
    expect(shape(found!.history!)).toBe(shape(other));
    expect(store.slots.steps.size).toBe(0);
  });

  test('comes back even with a row that no schema allows, since it was on the screen', async () => {
    const start = place(blank(), 3);
    const before = start.plan.tables.devices.get('D1')!;
    const odd = { ...before, at: [0.5, 7] as const };
    const state = commit(start, {
      label: msg('Move'),
      changes: [{ table: 'devices', id: 'D1', before, after: odd }],
    });
    const found = await load(await kept([start, state]));
    expect(shape(found!.history!)).toBe(shape(state));
  });

  test('lets the tab that claimed last write, and no other', async () => {
    const store = new FakeStore();
    const all = states(6);
    const first = createJournal(store, 'first');
    await first.load();
    await first.begin(all[0]!);
    await first.record(all[1]!);
    const second = createJournal(store, 'second');
    const found = await second.load();
    await expect(first.record(all[2]!)).rejects.toBeInstanceOf(TakenOver);
    const on = rename(found!.history!, 'From the second tab');
    await second.record(on);
    expect(shape((await load(store))!.history!)).toBe(shape(on));
  });
});

/**
 * Runs a whole session on a disk that fails at operation 1, 2, 3 … until a session runs through without meeting its
 * failure, and looks at what the next visit finds.
 */
async function everyFailure(
  fault: Fault,
  dead: boolean,
  check: (store: FakeStore, safe: number, all: readonly History[]) => Promise<void>,
): Promise<number> {
  const all = states(14);
  for (let failAt = 1; ; failAt++) {
    const store = new FakeStore();
    store.failAt = failAt;
    store.fault = fault;
    store.dead = dead;
    const journal = createJournal(store, 'writer', 4);
    let safe = -1;
    await journal.load().catch(() => undefined);
    if (store.owner === '' && !dead) await journal.load();
    for (const [n, state] of [...all.entries(), [all.length - 1, all.at(-1)!] as const]) {
      const write = n === 0 ? journal.begin(state) : journal.record(state);
      await write.then(
        () => {
          safe = n;
        },
        () => undefined,
      );
    }
    await check(store.reopened(), safe, all);
    if (store.operations < failAt) return failAt;
  }
}

describe('the journal on a failing disk', () => {
  for (const fault of ['before', 'after', 'torn', 'silent'] as const) {
    test(`catches up with the next step when an operation fails (${fault})`, async () => {
      const tried = await everyFailure(fault, false, async (store, safe, all) => {
        expect(safe).toBe(all.length - 1);
        const found = await load(store);
        expect(shape(found!.history!)).toBe(shape(all.at(-1)!));
      });
      expect(tried).toBeGreaterThan(40);
    });

    test(`holds every step that it said was kept when the page dies at an operation (${fault})`, async () => {
      await everyFailure(fault, true, async (store, safe, all) => {
        const found = await load(store);
        if (!found?.history) {
          expect(safe).toBe(-1);
          return;
        }
        const found_ = shape(found.history);
        // What was being written when the page died may be there as a whole, or not at all.
        const allowed = [all[Math.max(0, safe)]!, all[Math.min(safe + 1, all.length - 1)]!];
        expect(allowed.map(shape)).toContainEqual(found_);
      });
    });
  }
});
