import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { paced } from '../../../src/board/canvas/pace.ts';
import {
  keepPictures,
  type LoadedPicture,
  type PictureWant,
} from '../../../src/board/canvas/pictures.ts';
import type { Scene } from '../../../src/board/scene.ts';
import type { SessionStore } from '../../../src/board/session.ts';
import { type Part, WHOLE } from '../../../src/drawing/display.ts';

describe('Pictures under the drawing', () => {
  beforeEach(() => vi.useFakeTimers());
  afterEach(() => vi.useRealTimers());

  const bitmap = (width = 1000, height = 500) =>
    ({ width, height, close: vi.fn() }) as unknown as ImageBitmap;
  const want = (width = 1000, seen: Part = WHOLE): PictureWant => ({
    key: 'a',
    place: '0,0',
    seen,
    width,
    height: width / 2,
  });
  const settled = () => vi.advanceTimersByTimeAsync(0);
  const rested = () => vi.advanceTimersByTimeAsync(300);

  /** A source whose picture is there at once; `parts` says what was drawn finer. */
  function sourceOf(picture: ImageBitmap | null, fine = false) {
    const parts: { part: Part; width: number; height: number; signal: AbortSignal }[] = [];
    const made: ImageBitmap[] = [];
    const source = {
      load: vi.fn(
        async (_key: string): Promise<LoadedPicture | null> =>
          picture && { sizes: [picture], fine },
      ),
      sharpen: vi.fn(async (_key: string, part: Part, size: object, signal: AbortSignal) => {
        parts.push({ part, ...(size as { width: number; height: number }), signal });
        const image = bitmap();
        made.push(image);
        return image as ImageBitmap | null;
      }),
    };
    return { source, parts, made };
  }

  it('are loaded once when they are asked for, and then drawn', async () => {
    const picture = bitmap();
    const { source } = sourceOf(picture);
    const ready = vi.fn();
    const kept = keepPictures(source, ready);
    expect([kept.get(want()), kept.get(want())]).toEqual([[], []]);
    await settled();
    expect(source.load).toHaveBeenCalledTimes(1);
    expect(ready).toHaveBeenCalled();
    expect(kept.get(want())).toEqual([{ image: picture, part: WHOLE }]);
  });

  it.each([
    ['is not there', async () => null],
    ['cannot be shown', () => Promise.reject(new Error('no picture'))],
  ])('one that %s is asked for once and leaves the board standing', async (_name, load) => {
    const { source } = sourceOf(null);
    source.load.mockImplementation(load as never);
    const ready = vi.fn();
    const kept = keepPictures(source, ready);
    kept.get(want());
    await settled();
    expect(kept.get(want())).toEqual([]);
    expect(source.load).toHaveBeenCalledTimes(1);
    expect(ready).not.toHaveBeenCalled();
  });

  it('are given back, also those that come too late', async () => {
    const [first, late] = [bitmap(), bitmap()];
    const { source } = sourceOf(first);
    source.load.mockImplementation(async (key) => ({
      sizes: [key === 'a' ? first : late],
      fine: false,
    }));
    const kept = keepPictures(source, vi.fn());
    kept.get(want());
    await settled();
    kept.get({ ...want(), key: 'b' });
    kept.dispose();
    await settled();
    expect(first.close).toHaveBeenCalledTimes(1);
    expect(late.close).toHaveBeenCalledTimes(1);
  });

  it('of the sizes of one, the smallest that is fine enough is drawn', async () => {
    const { source } = sourceOf(null);
    const sizes = [bitmap(8000, 4000), bitmap(4000, 2000), bitmap(2000, 1000)];
    source.load.mockImplementation(async () => ({ sizes, fine: false }));
    const kept = keepPictures(source, vi.fn());
    kept.get(want());
    await settled();
    const drawn = (width: number) => kept.get(want(width))[0]!.image.width;
    expect([9000, 8000, 4001, 4000, 2500, 1500, 100].map(drawn)).toEqual([
      8000, 8000, 8000, 4000, 4000, 2000, 2000,
    ]);
    kept.dispose();
    for (const size of sizes) expect(size.close).toHaveBeenCalledTimes(1);
  });

  it('a fine one is drawn anew where it is seen, once the view has rested', async () => {
    const { source, parts, made } = sourceOf(bitmap(), true);
    const ready = vi.fn();
    const kept = keepPictures(source, ready);
    kept.get(want());
    await settled();
    const seen = { x0: 0.4, y0: 0.4, x1: 0.6, y1: 0.6 };
    kept.get(want(5000, seen));
    await vi.advanceTimersByTimeAsync(100);
    kept.get(want(6000, seen));
    await vi.advanceTimersByTimeAsync(100);
    expect(parts).toEqual([]);
    await rested();
    expect(parts).toHaveLength(1);
    // A margin lies round what is seen, and the pixels are those of the screen.
    const { part, width, height } = parts[0]!;
    expect(part.x0).toBeLessThan(0.4);
    expect(part.x1).toBeGreaterThan(0.6);
    expect(width).toBe(Math.round((part.x1 - part.x0) * 6000));
    expect(height).toBe(Math.round((part.y1 - part.y0) * 3000));
    expect(kept.get(want(6000, seen))[1]).toEqual({ image: made[0], part });
    // Nothing has moved, so nothing is drawn again.
    await rested();
    expect(parts).toHaveLength(1);
  });

  it('a part that nobody waits for any longer is dropped, and so is what comes of it', async () => {
    const { source, parts } = sourceOf(bitmap(), true);
    const late = bitmap();
    let finish: (image: ImageBitmap) => void = () => undefined;
    source.sharpen.mockImplementationOnce((_key, part, size, signal) => {
      parts.push({ part, ...(size as { width: number; height: number }), signal });
      return new Promise((done) => {
        finish = done;
      });
    });
    const kept = keepPictures(source, vi.fn());
    kept.get(want());
    await settled();
    kept.get(want(5000));
    await rested();
    kept.get(want(7000));
    expect(parts[0]!.signal.aborted).toBe(true);
    finish(late);
    await settled();
    expect(late.close).toHaveBeenCalledTimes(1);
    expect(kept.get(want(7000))).toHaveLength(1);
  });

  it('a fine one seen small needs no finer part, and gives back the one that it had', async () => {
    const { source, made } = sourceOf(bitmap(), true);
    const kept = keepPictures(source, vi.fn());
    kept.get(want());
    await settled();
    kept.get(want(5000));
    await rested();
    expect(kept.get(want(5000))).toHaveLength(2);
    expect(kept.get(want(900))).toHaveLength(1);
    expect(made[0]!.close).toHaveBeenCalledTimes(1);
  });

  it('the same drawing laid twice is drawn finer in both places, without end for neither', async () => {
    const { source, parts } = sourceOf(bitmap(), true);
    const kept = keepPictures(source, vi.fn());
    kept.get(want());
    await settled();
    const both = () => {
      kept.get(want(5000));
      kept.get({ ...want(8000), place: '9,9' });
    };
    for (let i = 0; i < 5; i++) {
      both();
      await rested();
    }
    expect(parts).toHaveLength(2);
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
