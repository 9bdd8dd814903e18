import type { CDPSession, Page } from '@playwright/test';
import type { Spot } from './job.ts';

/** Fingers on the glass, each by its number; every call is one report of the glass to the browser. */
export interface Fingers {
  down(finger: number, at: Spot): Promise<void>;
  move(places: Readonly<Record<number, Spot>>): Promise<void>;
  up(finger: number): Promise<void>;
}

export async function fingersOn(page: Page): Promise<Fingers> {
  const glass: CDPSession = await page.context().newCDPSession(page);
  const on = new Map<number, Spot>();
  const report = (type: 'touchStart' | 'touchMove' | 'touchEnd', of: Iterable<[number, Spot]>) =>
    glass.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: [...of].map(([id, { x, y }]) => ({ id, x, y })),
    });
  return {
    async down(finger, at) {
      on.set(finger, at);
      await report('touchStart', on);
    },
    async move(places) {
      for (const [finger, at] of Object.entries(places)) on.set(Number(finger), at);
      await report('touchMove', on);
    },
    async up(finger) {
      // An end names the finger that is lifted, and the others stay on the glass; one without names lifts all.
      const at = on.get(finger);
      on.delete(finger);
      if (at) await report('touchEnd', on.size === 0 ? [] : [[finger, at]]);
    },
  };
}
