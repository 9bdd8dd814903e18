import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createSession } from '../../../src/board/session.ts';
import { followerOf, pointedOf, resterOf } from '../../../src/desk/follow.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { emptyPlan, type Plan } from '../../../src/plan/plan.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const survey = createSurveyor(kinds);

/** A session with a closet to drag, and what a panel hears of it. */
function bench<T>(
  of: (session: ReturnType<typeof createSession>) => {
    get(): T;
    subscribe(changed: () => void): () => void;
  },
) {
  const session = createSession(kinds, emptyPlan());
  const { actions } = session.getState();
  actions.run('place-closet', { level: 'L1', at: [0, 0] });
  const heard: T[] = [];
  const follower = of(session);
  const listen = () => follower.subscribe(() => void heard.push(follower.get()));
  const drag = (x: number): Plan => {
    const refs = [{ table: 'closets' as const, id: 'C1' }];
    const outcome = actions.ask('move', { refs, by: [x, 0] });
    if (!outcome.ok) throw new Error('refused');
    actions.show(outcome.changes);
    return session.getState().preview!;
  };
  const arrive = (plan: Plan) => actions.set({ survey: survey(plan), surveyed: plan });
  return { session, actions, follower, heard, listen, drag, arrive };
}

describe('the plan for panels', () => {
  it('is what is committed at once, and what is dragged with the next survey', () => {
    const { session, actions, heard, listen, drag, arrive } = bench(followerOf);
    listen();
    const first = drag(100);
    expect(heard).toEqual([first]);
    const second = drag(200);
    const third = drag(300);
    expect(heard).toEqual([first]);
    arrive(second);
    expect(heard.slice(1)).toEqual([third]);
    vi.advanceTimersByTime(5000);
    expect(heard).toHaveLength(2);
    drag(400);
    actions.run('place-closet', { level: 'L1', at: [9000, 0] });
    expect(heard.slice(2)).toEqual([session.getState().history.plan]);
    vi.advanceTimersByTime(5000);
    expect(heard).toHaveLength(3);
  });

  it('follows a drag a few times a second where no survey comes', () => {
    const { follower, heard, listen, drag } = bench(followerOf);
    listen();
    const first = drag(100);
    let last = first;
    for (let i = 0; i < 10; i++) {
      last = drag(200 + i);
      expect(follower.get()).toBe(first);
      vi.advanceTimersByTime(30);
    }
    expect(heard).toHaveLength(1);
    vi.advanceTimersByTime(100);
    expect(heard.slice(1)).toEqual([last]);
  });

  it('is committed again as soon as a drag is dropped', () => {
    const { session, actions, follower, listen, drag } = bench(followerOf);
    listen();
    drag(100);
    actions.show(null);
    expect(follower.get()).toBe(session.getState().history.plan);
  });

  it('shows nothing of an earlier drag to who comes after it', () => {
    const { actions, follower, listen, drag } = bench(followerOf);
    const leave = listen();
    drag(100);
    leave();
    actions.show(null);
    const later = drag(700);
    expect(follower.get()).toBe(later);
  });
});

describe('the survey for panels', () => {
  it('stands while a hand drags, until it rests or lets go', () => {
    const { session, actions, heard, follower, listen, drag, arrive } = bench(resterOf);
    listen();
    arrive(session.getState().history.plan);
    const before = session.getState().survey;
    arrive(drag(100));
    arrive(drag(200));
    expect(follower.get()).toBe(before);
    expect(heard).toEqual([before]);
    vi.advanceTimersByTime(300);
    expect(heard.slice(1)).toEqual([session.getState().survey]);
    drag(300);
    actions.show(null);
    expect(heard).toHaveLength(3);
  });
});

describe('what the pointer rests on', () => {
  it('is what it stays on, not what it passes over', () => {
    const { actions, heard, listen } = bench(pointedOf);
    listen();
    const closet = { table: 'closets' as const, id: 'C1' };
    actions.set({ hover: { table: 'devices', id: 'D1' } });
    vi.advanceTimersByTime(60);
    actions.set({ hover: closet });
    vi.advanceTimersByTime(60);
    expect(heard).toEqual([]);
    vi.advanceTimersByTime(100);
    expect(heard).toEqual([closet]);
  });
});
