import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from '@playwright/test';
import { build, preview } from 'vite';
import { writePlan } from '../../src/plan/codec.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { launch } from '../chromium.mjs';
import { openJob } from '../e2e/job.ts';
import { Hand, type Measured, quantile, type Spot } from './board-drive.ts';
import { crowdedPlan, SIZE } from './board-plan.ts';

/**
 * How the built board feels on a crowded plan, all in view: frames while it is panned, zoomed, pointed at and while a
 * device is dragged, how soon it is sharp again, and the first picture of a cold load; and the same plan with one canvas node for each thing.
 *
 * Frames are not held to the screen's rate, so that a frame takes as long as its work: what is read is the time from a
 * frame's input to the beginning of the next one.
 */
const root = fileURLToPath(new URL('../..', import.meta.url));
const VIEW = { width: 1600, height: 1000 };
const RUN = 3000;
/** So often the view is moved to see how soon the drawing is sharp again. */
const SHARP = 12;
/** So often it is zoomed again while the plan is laid out: each time at another moment of that. */
const MEETINGS = 36;

const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

const { args, ...rest } = launch();
const start = () =>
  chromium.launch({
    ...rest,
    args: [...args, '--disable-frame-rate-limit', '--disable-gpu-vsync'],
  });

async function served<T>(outDir: string, use: (address: string) => Promise<T>): Promise<T> {
  const server = await preview({
    root,
    configFile: false,
    base: './',
    logLevel: 'error',
    build: { outDir },
    preview: { host: '127.0.0.1', port: 0 },
  });
  try {
    return await use(server.resolvedUrls!.local[0]!);
  } finally {
    await server.close();
  }
}

async function pageOf(browser: Browser, address: string): Promise<Page> {
  const context = await browser.newContext({
    viewport: VIEW,
    baseURL: address,
    deviceScaleFactor: 1,
  });
  return context.newPage();
}

/** The four movements, each from the whole plan in view. */
async function movements(
  hand: Hand,
  middle: Spot,
  grip: Spot,
  home: () => Promise<unknown>,
): Promise<Record<string, Measured>> {
  const from = async (act: () => Promise<Measured>) => {
    await home();
    await pause(1500);
    return act();
  };
  return {
    pan: await from(() => hand.drag(middle, 'middle', 120, RUN)),
    zoom: await from(() => hand.zoom(middle, RUN)),
    hover: await from(() => hand.hover(middle, 200, RUN)),
    'drag a device': await from(() => hand.drag(grip, 'left', 90, RUN)),
  };
}

async function opened(browser: Browser, address: string, plan: Plan, file: string) {
  const page = await pageOf(browser, address);
  const job = await openJob(page);
  const buffer = Buffer.from(file);
  await job.openFile({ name: 'crowded.json', mimeType: 'application/json', buffer });
  await job.to('devices');
  await page.getByText(`${SIZE.runs} runs`).waitFor({ timeout: 120_000 });
  const chart = await job.fit(plan);
  const box = await job.canvas();
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const hand = await Hand.on(browser, page);
  return { page, job, chart, middle, hand };
}

async function ours(browser: Browser, address: string, plan: Plan, file: string) {
  const { page, job, chart, middle, hand } = await opened(browser, address, plan, file);
  const device = plan.tables.devices.get('D1')!;
  const found = await movements(hand, middle, chart(device.at), () => job.fit(plan));
  const done = await job.undo().getAttribute('aria-label');
  if (!done?.includes('device')) throw new Error(`not a device was dragged: ${done}`);
  return { found, page };
}

/** How soon it is sharp again after the last move of a hand, ms. */
async function sharpAgain(browser: Browser, address: string, plan: Plan, file: string) {
  const { middle, hand } = await opened(browser, address, plan, file);
  const found: Record<string, number[]> = {};
  if (wants('sharp')) {
    found.pan = await hand.sharpAfterPan(middle, SHARP);
    found.zoom = await hand.sharpAfterZoom(middle, SHARP);
  }
  if (wants('second')) found['second zoom'] = await hand.sharpAfterSecondZoom(middle, MEETINGS);
  return found;
}

async function peer(browser: Browser, address: string) {
  const page = await pageOf(browser, address);
  await page.goto('./');
  await page.waitForFunction(() => document.body.dataset.nodes, null, { timeout: 120_000 });
  const grip = JSON.parse(await page.evaluate(() => document.body.dataset.grip!)) as Spot;
  const nodes = await page.evaluate(() => document.body.dataset.nodes!);
  const hand = await Hand.on(browser, page);
  const middle = { x: VIEW.width / 2, y: VIEW.height / 2 };
  const found = await movements(hand, middle, grip, () => page.keyboard.press('Home'));
  return { found, page, nodes };
}

/** The first picture of the built site in a browser that has never seen it, ms: of anything, and of the board. */
async function coldLoads(
  address: string,
  times: number,
): Promise<{ any: number[]; board: number[] }> {
  const any: number[] = [];
  const board: number[] = [];
  for (let i = 0; i < times; i++) {
    const browser = await chromium.launch({ ...rest, args });
    const page = await pageOf(browser, address);
    await page.goto('./');
    await page.locator('.board-canvas canvas').first().waitFor();
    board.push(
      await page.evaluate(
        () =>
          new Promise<number>((done) => {
            requestAnimationFrame(() => requestAnimationFrame((now) => done(now)));
          }),
      ),
    );
    any.push(
      await page.evaluate(
        () => performance.getEntriesByName('first-contentful-paint')[0]!.startTime,
      ),
    );
    await browser.close();
  }
  return { any, board };
}

const table = (found: Record<string, Measured>) =>
  Object.fromEntries(
    Object.entries(found).map(([what, m]) => [
      what,
      {
        frames: m.frames,
        'median ms': Number(m.median.toFixed(1)),
        'p95 ms': Number(m.p95.toFixed(1)),
        'worst ms': Number(m.worst.toFixed(0)),
        'script ms': Number(m.script.toFixed(1)),
        'script p95': Number(m.scriptP95.toFixed(1)),
        'processor ms': Number(m.own.toFixed(1)),
        'over 50 ms': m.long,
      },
    ]),
  );

const plan = crowdedPlan();
const file = writePlan(plan);
const folder = mkdtempSync(join(tmpdir(), 'board-'));
const asked = process.argv.slice(2);
const wants = (what: string) => asked.length === 0 || asked.includes(what);
try {
  console.log(
    `${SIZE.devices} devices, ${SIZE.walls} walls, ${SIZE.runs} runs; ${VIEW.width} x ${VIEW.height}; ${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)}`,
  );
  if (['cold', 'board', 'sharp', 'second'].some(wants)) {
    const out = join(folder, 'app');
    await build({ root, logLevel: 'error', build: { outDir: out, emptyOutDir: true } });
    await served(out, async (address) => {
      if (wants('cold')) {
        const { any, board } = await coldLoads(address, 5);
        console.log(
          'cold load, ms: first paint',
          any.map(Math.round),
          'board',
          board.map(Math.round),
        );
      }
      if (wants('board')) {
        const browser = await start();
        const { found, page } = await ours(browser, address, plan, file);
        console.log('the board');
        console.table(table(found));
        if (process.env.BENCH_PICTURES)
          await page.screenshot({ path: join(process.env.BENCH_PICTURES, 'board.png') });
        await browser.close();
      }
      if (!wants('sharp') && !wants('second')) return;
      const browser = await start();
      const sharp = await sharpAgain(browser, address, plan, file);
      for (const [what, took] of Object.entries(sharp))
        console.log(
          `sharp again after the last move of a ${what}, ms: median`,
          Math.round(quantile(took, 0.5)),
          'p95',
          Math.round(quantile(took, 0.95)),
          'worst',
          Math.round(quantile(took, 1)),
          took.map(Math.round),
        );
      await browser.close();
    });
  }
  if (wants('peer')) {
    const out = join(folder, 'peer');
    const home = join(root, 'tests/bench/board-peer');
    await build({
      root: home,
      base: './',
      configFile: false,
      logLevel: 'error',
      build: { outDir: out, emptyOutDir: true, target: 'es2022' },
    });
    writeFileSync(join(out, 'plan.json'), file);
    await served(out, async (address) => {
      const browser = await start();
      const { found, page, nodes } = await peer(browser, address);
      console.log(`one node for each thing (${nodes} nodes)`);
      console.table(table(found));
      if (process.env.BENCH_PICTURES)
        await page.screenshot({ path: join(process.env.BENCH_PICTURES, 'peer.png') });
      await browser.close();
    });
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
