import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { paced } from '../../../src/board/canvas/pace.ts';
import { keepPictures } from '../../../src/board/canvas/pictures.ts';
import type { Scene } from '../../../src/board/scene.ts';
import type { SessionStore } from '../../../src/board/session.ts';

const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

describe('Pictures under the drawing', () => {
  const bitmap = () => ({ close: vi.fn() }) as unknown as ImageBitmap;

  it('are loaded once when they are asked for, and then drawn', async () => {
    const picture = bitmap();
    const load = vi.fn(() => Promise.resolve(picture));
    const ready = vi.fn();
    const kept = keepPictures(load, ready);
    expect([kept.get('a'), kept.get('a')]).toEqual([null, null]);
    await settled();
    expect(load).toHaveBeenCalledTimes(1);
    expect(ready).toHaveBeenCalledTimes(1);
    expect(kept.get('a')).toBe(picture);
  });

  it.each([
    ['is not there', () => Promise.resolve(null)],
    ['cannot be shown', () => Promise.reject(new Error('no picture'))],
  ])('one that %s is asked for once and leaves the board standing', async (_name, answer) => {
    const load = vi.fn(answer as () => Promise<ImageBitmap | null>);
    const ready = vi.fn();
    const kept = keepPictures(load, ready);
    kept.get('a');
    await settled();
    expect(kept.get('a')).toBeNull();
    expect(load).toHaveBeenCalledTimes(1);
    expect(ready).not.toHaveBeenCalled();
  });

  it('are given back, also those that come too late', async () => {
    const [first, late] = [bitmap(), bitmap()];
    const kept = keepPictures((hash) => Promise.resolve(hash === 'a' ? first : late), vi.fn());
    kept.get('a');
    await settled();
    kept.get('b');
    kept.dispose();
    await settled();
    expect(first.close).toHaveBeenCalledTimes(1);
    expect(late.close).toHaveBeenCalledTimes(1);
  });
});

describe('The pace of the drawing', () => {
  beforeEach(() => vi.useFakeTimers());
  afterEach(() => vi.useRealTimers());

  const scene = (): Scene => ({ layers: [], drawn: new Map() });
  const session = (level = 'L1') => ({ level }) as SessionStore;
  const slow = (ms: number) =>
    vi.fn(() => {
      vi.advanceTimersByTime(ms);
      return scene();
    });

  it('makes a quick scene for every frame', () => {
    const make = slow(2);
    const frame = paced(make, vi.fn());
    expect(frame(session())).not.toBe(frame(session()));
    expect(make).toHaveBeenCalledTimes(2);
  });

  it('lets a slow scene stand for twice its time, and then asks for a new one', () => {
    const make = slow(50);
    const again = vi.fn();
    const frame = paced(make, again);
    const first = frame(session());
    vi.advanceTimersByTime(60);
    expect(frame(session())).toBe(first);
    expect(again).not.toHaveBeenCalled();
    vi.advanceTimersByTime(45);
    expect(again).toHaveBeenCalledTimes(1);
    expect(frame(session())).not.toBe(first);
  });

  it('never shows one level in the place of another', () => {
    const make = slow(50);
    const frame = paced(make, vi.fn());
    expect(frame(session('L1'))).not.toBe(frame(session('L2')));
  });
});
