import { writeFileSync } from 'node:fs';
import type { Browser, CDPSession, Page } from '@playwright/test';
import { recorder, sharpness } from './board-record.ts';

/** A place on the page, px. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** What a movement cost, ms. */
export interface Measured {
  readonly frames: number;
  readonly median: number;
  readonly p95: number;
  readonly worst: number;
  /** Script of a frame: what the page's own code took of the main thread. */
  readonly script: number;
  readonly scriptP95: number;
  /** What a frame takes of the page's thread in time of the processor, which other programs do not make longer. */
  readonly own: number;
  /** Frames longer than 50 ms, as the browser counts them. */
  readonly long: number;
}

export const quantile = (values: readonly number[], q: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
};

interface Frames {
  readonly times: readonly number[];
  readonly inputs: readonly boolean[];
  readonly long: number;
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly pid: number;
  readonly tid: number;
}

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** A second zoom begins so long after the first, ms: over all of what the first is laid out in. */
const MEETS = { from: 130, to: 650 };

/** The names under which the browser's trace holds the page's own code. */
const SCRIPT = new Set([
  'EventDispatch',
  'FireAnimationFrame',
  'FunctionCall',
  'TimerFire',
  'RunMicrotasks',
  'EvaluateScript',
  'FireIdleCallback',
  'HandlePostMessage',
]);

/** What happened on the page's own thread while it was measured, in order. */
function ownEvents(events: readonly TraceEvent[]): readonly TraceEvent[] {
  const start = events.find((e) => e.name === 'bench-start');
  const end = events.find((e) => e.name === 'bench-end');
  if (!start || !end) throw new Error('the trace lacks its marks');
  return events
    .filter((e) => e.pid === start.pid && e.tid === start.tid)
    .filter((e) => e.ts >= start.ts && e.ts <= end.ts)
    .sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
}

/** Time of the processor that each frame took, ms. */
function processorOf(own: readonly TraceEvent[]): number[] {
  const sums: number[] = [];
  for (const { name, tdur = 0 } of own) {
    if (name === 'BeginMainThreadFrame') sums.push(0);
    else if (name === 'RunTask' && sums.length > 0) sums[sums.length - 1]! += tdur / 1000;
  }
  return sums;
}

/** Script in each frame, ms: what of the page's code lies between two frames' beginnings; nested calls count once. */
function scriptOf(own: readonly TraceEvent[]): number[] {
  const sums: number[] = [];
  let until = 0;
  for (const { name, ts, ph, dur = 0 } of own) {
    if (name === 'BeginMainThreadFrame') sums.push(0);
    if (ph !== 'X' || !SCRIPT.has(name) || sums.length === 0 || ts + dur <= until) continue;
    sums[sums.length - 1]! += (ts + dur - Math.max(ts, until)) / 1000;
    until = ts + dur;
  }
  return sums;
}

/** Drives a page as a hand does, by the browser's own input, without waiting for the page between two moves. */
export class Hand {
  readonly #browser: Browser;
  readonly #page: Page;
  readonly #input: CDPSession;

  private constructor(browser: Browser, page: Page, input: CDPSession) {
    this.#browser = browser;
    this.#page = page;
    this.#input = input;
  }

  static async on(browser: Browser, page: Page): Promise<Hand> {
    // The runner of these files wraps named functions in a helper that a page does not have.
    await page.evaluate('globalThis.__name = (named) => named');
    await page.evaluate(recorder);
    await page.evaluate(sharpness);
    return new Hand(browser, page, await page.context().newCDPSession(page));
  }

  async #moves(ms: number, send: (n: number) => Promise<unknown>): Promise<void> {
    const end = performance.now() + ms;
    const sent: Promise<unknown>[] = [];
    for (let n = 0; performance.now() < end; n++) {
      sent.push(send(n));
      // No more than a few on their way, as a hand that never rests.
      if (sent.length > 6) await sent.shift();
      await pause(2);
    }
    await Promise.all(sent);
  }

  async #measure(act: () => Promise<void>): Promise<Measured> {
    await this.#browser.startTracing(this.#page, {
      categories: [
        'devtools.timeline',
        'disabled-by-default-devtools.timeline',
        'disabled-by-default-devtools.timeline.frame',
        'devtools.timeline.frame',
        'blink.user_timing',
        ...(process.env.BENCH_TRACE ? ['toplevel', 'cc', 'viz', 'blink', 'v8'] : []),
      ],
    });
    await this.#page.evaluate(() =>
      (window as unknown as { frames: { start(): void } }).frames.start(),
    );
    await act();
    const { times, inputs, long } = await this.#page.evaluate(() =>
      (window as unknown as { frames: { stop(): Frames } }).frames.stop(),
    );
    const text = (await this.#browser.stopTracing()).toString();
    if (process.env.BENCH_TRACE) writeFileSync(process.env.BENCH_TRACE, text);
    const trace = JSON.parse(text) as { traceEvents: TraceEvent[] };
    const own = ownEvents(trace.traceEvents);
    const script = scriptOf(own);
    const spans: number[] = [];
    for (let i = 1; i < times.length; i++) if (inputs[i - 1]) spans.push(times[i]! - times[i - 1]!);
    return {
      frames: spans.length,
      median: quantile(spans, 0.5),
      p95: quantile(spans, 0.95),
      worst: quantile(spans, 1),
      script: quantile(script, 0.5),
      scriptP95: quantile(script, 0.95),
      own: quantile(processorOf(own), 0.5),
      long,
    };
  }

  #mouse(type: string, { x, y }: Spot, more: object = {}): Promise<unknown> {
    return this.#input.send('Input.dispatchMouseEvent', { type, x, y, ...more } as never);
  }

  /** Drags in circles from a spot with a button, and back; the press and the release are not measured. */
  async drag(from: Spot, button: 'left' | 'middle', radius: number, ms: number): Promise<Measured> {
    const buttons = button === 'left' ? 1 : 4;
    await this.#mouse('mouseMoved', from);
    await this.#mouse('mousePressed', from, { button, buttons, clickCount: 1 });
    await this.#mouse('mouseMoved', { x: from.x + 12, y: from.y }, { button, buttons });
    await pause(300);
    const measured = await this.#measure(() =>
      this.#moves(ms, (n) => {
        const a = n / 25;
        const to = { x: from.x + radius * Math.sin(a), y: from.y + radius * (1 - Math.cos(a)) };
        return this.#mouse('mouseMoved', to, { button, buttons });
      }),
    );
    await this.#mouse('mouseMoved', from, { button, buttons });
    await this.#mouse('mouseReleased', from, { button, buttons: 0, clickCount: 1 });
    return measured;
  }

  /** Turns the wheel out and in again about a spot. */
  zoom(at: Spot, ms: number): Promise<Measured> {
    return this.#measure(() =>
      this.#moves(ms, (n) =>
        this.#mouse('mouseWheel', at, { deltaX: 0, deltaY: n % 40 < 20 ? -30 : 30 }),
      ),
    );
  }

  /** How long after the last of some quick moves the drawing is sharp again, ms, so many times. */
  async #sharpAfter(times: number, moves: (n: number) => Promise<unknown>): Promise<number[]> {
    const took: number[] = [];
    for (let i = 0; i < times; i++) {
      // What was laid out for the time before is done by then.
      await pause(1200);
      await this.#page.evaluate('sharp()');
      await moves(i);
      await pause(600);
      const ms = (await this.#page.evaluate('sharp()')) as number | null;
      if (ms === null) throw new Error('the drawing never became sharp');
      took.push(ms);
    }
    return took;
  }

  /** The same after the view was thrown aside, further than the margin of what is painted. */
  async sharpAfterPan(from: Spot, times: number): Promise<number[]> {
    let way = 1;
    return this.#sharpAfter(times, async () => {
      await this.#mouse('mouseMoved', from);
      await this.#mouse('mousePressed', from, { button: 'middle', buttons: 4, clickCount: 1 });
      for (let n = 1; n <= 20; n++) {
        const to = { x: from.x + way * n * 15, y: from.y + n * 4 };
        await this.#mouse('mouseMoved', to, { button: 'middle', buttons: 4 });
        await pause(8);
      }
      const end = { x: from.x + way * 300, y: from.y + 80 };
      await this.#mouse('mouseReleased', end, { button: 'middle', buttons: 0, clickCount: 1 });
      way = -way;
    });
  }

  async #wheel(at: Spot, way: number, turns = 8): Promise<void> {
    for (let n = 0; n < turns; n++) {
      await this.#mouse('mouseWheel', at, { deltaX: 0, deltaY: way * -60 });
      await pause(8);
    }
  }

  /** The same after some turns of the wheel. */
  sharpAfterZoom(at: Spot, times: number): Promise<number[]> {
    return this.#sharpAfter(times, (n) => this.#wheel(at, n % 2 ? -1 : 1));
  }

  /** The same after a second zoom, of one turn or some, that comes while the plan is laid out and painted for a first. */
  sharpAfterSecondZoom(at: Spot, times: number): Promise<number[]> {
    const { from, to } = MEETS;
    return this.#sharpAfter(times, async (n) => {
      const way = n % 2 ? -1 : 1;
      await this.#wheel(at, way);
      await pause(from + ((to - from) * ((n * 5) % times)) / times);
      await this.#wheel(at, way, [1, 2, 8][n % 3]);
    });
  }

  /** Moves the pointer over the drawing with no button. */
  hover(at: Spot, radius: number, ms: number): Promise<Measured> {
    return this.#measure(() =>
      this.#moves(ms, (n) => {
        const a = n / 40;
        return this.#mouse('mouseMoved', {
          x: at.x + radius * Math.sin(a),
          y: at.y + radius * Math.cos(a * 1.3),
        });
      }),
    );
  }
}
