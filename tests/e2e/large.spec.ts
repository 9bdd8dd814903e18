import { writeFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import { PDFDocument, PDFName, PDFRawStream } from '@cantoo/pdf-lib';
import { expect, type Page, test } from '@playwright/test';
import { t } from '../../src/text/index.ts';
import { type Job, openJob } from './job.ts';
import { largeScan } from './picture.ts';

/** A PDF of more than 40 MB, as a scanner makes: one page of 36 × 27 in. that is put together from nine pictures. */
async function largePdf(): Promise<Buffer> {
  const [width, height, across] = [2400, 2000, 3];
  const pixels = Buffer.alloc(width * height * 3);
  let grain = 1;
  for (let i = 0; i < pixels.length; i++) {
    grain = (grain * 1103515245 + 12345) & 0x7fffffff;
    // Paper with a grain that does not pack well, and a dark line at the left of each picture.
    pixels[i] = 180 + ((grain >> 16) & 3) - (i % (width * 3) < 60 ? 100 : 0);
  }
  const packed = deflateSync(pixels, { level: 1 });
  const file = await PDFDocument.create();
  const page = file.addPage([2592, 1944]);
  const dict = { Type: 'XObject', Subtype: 'Image', Filter: 'FlateDecode', BitsPerComponent: 8 };
  const size = { Width: width, Height: height, ColorSpace: 'DeviceRGB' };
  let content = '';
  for (let i = 0; i < across * across; i++) {
    const picture = PDFRawStream.of(file.context.obj({ ...dict, ...size }), packed);
    page.node.setXObject(PDFName.of(`P${i}`), file.context.register(picture));
    const [w, h] = [2592 / across, 1944 / across];
    content += `q ${w} 0 0 ${h} ${(i % across) * w} ${Math.floor(i / across) * h} cm /P${i} Do Q\n`;
  }
  page.node.addContentStream(file.context.register(file.context.stream(content)));
  return Buffer.from(await file.save());
}

/** How the page felt while something was done: how long it took, and how long each task that held it up was, ms. */
interface Felt {
  readonly took: number;
  readonly held: readonly number[];
}

/** Brings a file to the board, and says how the page felt until it lay there and was drawn. */
async function felt(page: Page, desk: Job, file: string): Promise<Felt> {
  const begun = await page.evaluate(() => {
    const seen: number[] = [];
    const note = (tasks: PerformanceEntryList) => {
      for (const { duration } of tasks) seen.push(Math.round(duration));
    };
    const watch = new PerformanceObserver((list) => note(list.getEntries()));
    watch.observe({ type: 'longtask' });
    const held = () => {
      note(watch.takeRecords());
      return seen;
    };
    Object.assign(window, { held });
    return performance.now();
  });
  await desk.choose(file, () =>
    page
      .getByRole('button', { name: t('base.choose') })
      .first()
      .click(),
  );
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), { timeout: 120_000 });
  const ended = await page.evaluate(() => performance.now());
  await expect.poll(() => inkOf(desk), { timeout: 30_000 }).toBeGreaterThan(0.5);
  // What is still made of the picture may follow once it is seen.
  await page.waitForTimeout(1500);
  const held = await page.evaluate(() => (window as unknown as { held: () => number[] }).held());
  return { took: ended - begun, held };
}

/** How much of a small piece in the middle of the board is not paper. */
const inkOf = (desk: Job): Promise<number> =>
  desk.board
    .locator('canvas')
    .first()
    .evaluate((element) => {
      const canvas = element as HTMLCanvasElement;
      const side = 40;
      const read = canvas.getContext('2d')!;
      const [x, y] = [(canvas.width - side) / 2, (canvas.height - side) / 2];
      const { data } = read.getImageData(x, y, side, side);
      let ink = 0;
      for (let i = 0; i < data.length; i += 4) if (data[i + 3]! > 0 && data[i]! < 252) ink++;
      return ink / side ** 2;
    });

/** Most that a page may be held up in all, as a share of the time that something takes. */
const SHARE = 0.05;
/** So much is always allowed, ms: a busy machine alone makes a task or two long. */
const ALWAYS = 100;

for (const [name, made] of [
  ['large.pdf', largePdf],
  ['large.png', largeScan],
] as const)
  test(`${name} is read and drawn without holding the board up`, async ({ page }, info) => {
    // As a file: what the test hands over as bytes passes through the page.
    const path = info.outputPath(name);
    writeFileSync(path, await made());
    const desk = await openJob(page);
    await desk.blank();
    const { took, held } = await felt(page, desk, path);
    const blocked = held.reduce((sum, one) => sum + one, 0);
    const words = `${Math.round(took)} ms, held up for ${held.join(' + ') || 0} ms`;
    expect(blocked, words).toBeLessThan(Math.max(ALWAYS, took * SHARE));
  });
