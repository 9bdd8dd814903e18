import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { changesBetween, replacePlan } from '../../../src/app/replace.ts';
import { createSession } from '../../../src/board/session.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { apply } from '../../../src/plan/change.ts';
import { readPlan } from '../../../src/plan/codec.ts';
import { emptyPlan, job, type Plan } from '../../../src/plan/plan.ts';

function sample(id: 'restaurant' | 'cafe'): Plan {
  const text = readFileSync(new URL(`../../../public/samples/${id}.json`, import.meta.url), 'utf8');
  const read = readPlan(text, new Set(kinds.keys()));
  if (!read.ok) throw new Error(read.issues[0]?.message);
  return read.value.plan;
}

describe('taking another job in hand', () => {
  test('is one change for each row that differs, both ways', () => {
    const [a, b] = [sample('restaurant'), sample('cafe')];
    expect(apply(a, changesBetween(a, b))).toEqual(b);
    expect(apply(b, changesBetween(b, a))).toEqual(a);
    expect(changesBetween(a, sample('restaurant'))).toEqual([]);
  });

  test('begins a new history where nothing was done', () => {
    const session = createSession(kinds, emptyPlan());
    replacePlan(session, sample('cafe'));
    expect(session.getState().history.steps).toEqual([]);
    expect(session.getState().history.plan).toEqual(sample('cafe'));
  });

  test('is a step that undo takes back where something was done', () => {
    const session = createSession(kinds, sample('restaurant'));
    const { actions } = session.getState();
    actions.run('place-closet', { level: 'L1', at: [1000, 1000] });
    const mine = session.getState().history.plan;
    replacePlan(session, sample('cafe'));
    expect(job(session.getState().history.plan).name).toBe(job(sample('cafe')).name);
    actions.undo();
    expect(session.getState().history.plan).toEqual(mine);
    actions.redo();
    expect(session.getState().history.plan).toEqual(sample('cafe'));
  });
});
