import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { PDFDocument, PDFName, PDFRawStream } from '@cantoo/pdf-lib';
import { expect, type Page, test } from '@playwright/test';
import { readPdfLines } from '../../src/app/pictures/pdf-lines.ts';
import { readSvgLines } from '../../src/app/pictures/svg-lines.ts';
import { fromPicture } from '../../src/plan/picture-place.ts';
import type { Background, Plan } from '../../src/plan/plan.ts';
import { formatPercent, t } from '../../src/text/index.ts';
import { surveyOf } from './core.ts';
import { type Job, openJob, SOON } from './job.ts';
import { operatorsOf, readPdf } from './pdf.ts';
import { PHOTO, photographedPlan, SCAN } from './picture.ts';

const FT = 304.8;
const backgroundOf = (plan: Plan): Background => [...plan.tables.backgrounds.values()][0]!;

/** The workshop floor, in points of its sheet of 42 × 30 in.; see the fixture's README for where it comes from. */
const SHEET = {
  width: 3024,
  height: 2160,
  /** The inside faces of the side walls, which the sheet says are 113' apart. */
  inside: { left: 475, right: 2508, at: 1650 },
  /** The short outer wall at the left, which was measured on site as 29.6 feet. */
  wall: { x: 456, top: 857, bottom: 1378 },
} as const;

test('a page of a PDF becomes a base to scale, and a length measured on site tells how far off it is', async ({
  page,
}) => {
  const desk = await openJob(page);
  await desk.blank();
  const buffer = readFileSync(new URL('../fixtures/plans/workshop-floor.pdf', import.meta.url));
  await desk.choose({ name: 'workshop.pdf', mimeType: 'application/pdf', buffer }, () =>
    page
      .getByRole('button', { name: t('base.choose') })
      .first()
      .click(),
  );
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), { timeout: 30_000 });
  const plan = await desk.plan();
  const sheet = backgroundOf(plan);
  // The whole sheet, whatever its resolution.
  expect(sheet.width / sheet.height).toBeCloseTo(SHEET.width / SHEET.height, 2);
  const on =
    (chart: Awaited<ReturnType<typeof desk.fit>>, of: Background) => (x: number, y: number) =>
      chart(fromPicture(of, [(x * of.width) / SHEET.width, (y * of.height) / SHEET.height]));

  await desk.to('base');
  const first = on(await desk.fit(plan), sheet);
  await desk.take(t('base.set'));
  const { left, right, at } = SHEET.inside;
  await desk.drag(first(left, at), first(right, at));
  await desk.answerLength("113'", t('length.set.go'));
  // The file says how wide its sheet is, so the line says the scale as it is printed.
  await expect(desk.leg('base')).toContainText(/1\/4" = 1'-0"|1:48/);
  const scaled = await desk.plan();
  // By the sheet's own words it is drawn at 1/48: 42 in. are 168 ft.
  const across = (backgroundOf(scaled).mmPerPixel * sheet.width) / FT;
  expect(Math.abs(across / 168 - 1)).toBeLessThan(0.006);

  const second = on(await desk.fit(scaled), backgroundOf(scaled));
  await desk.take(t('base.check'));
  const { x, top, bottom } = SHEET.wall;
  await desk.drag(second(x, top), second(x, bottom));
  await desk.answerLength("29.6'", t('length.check.go'));
  const checked = await desk.plan();
  const { check, mmPerPixel } = backgroundOf(checked);
  const measured = Math.hypot(check!.b[0] - check!.a[0], check!.b[1] - check!.a[1]) * mmPerPixel;
  const error = measured / (29.6 * FT) - 1;
  // The drawing is some 2 % short of what was measured on site.
  expect(error).toBeGreaterThan(-0.035);
  expect(error).toBeLessThan(-0.01);
  await expect(desk.shelf).toContainText(t('base.said.short', { by: formatPercent(-error) }), SOON);
  const { findings } = surveyOf(checked);
  expect(findings.filter((f) => f.rule === 'scale-off').length).toBe(1);
});

test('a plan can be dropped on the drawing', async ({ page }) => {
  const desk = await openJob(page);
  await desk.blank();
  const { scannedPlan } = await import('./picture.ts');
  const data = await page.evaluateHandle((base64) => {
    const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
    const transfer = new DataTransfer();
    transfer.items.add(new File([bytes], 'hall.png', { type: 'image/png' }));
    return transfer;
  }, scannedPlan().toString('base64'));
  await desk.board.dispatchEvent('dragover', { dataTransfer: data });
  await expect(page.getByText(t('base.drop-here'))).toBeVisible();
  await desk.board.dispatchEvent('drop', { dataTransfer: data });
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), SOON);
  expect((await desk.plan()).tables.backgrounds.size).toBe(1);
});

const fixture = (name: string): Buffer =>
  readFileSync(new URL(`../fixtures/plans/${name}`, import.meta.url));

/** Brings a plan to a blank job by the file button, and waits until it lies on the board. */
async function brought(page: Page, name: string, mimeType: string, buffer: Buffer): Promise<Job> {
  const desk = await openJob(page);
  await desk.blank();
  await desk.choose({ name, mimeType, buffer }, () =>
    page
      .getByRole('button', { name: t('base.choose') })
      .first()
      .click(),
  );
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), { timeout: 30_000 });
  return desk;
}

/** The strongest step between neighbouring pixels of the board: blurred lines have weak ones. */
const sharpness = (desk: Job): Promise<number> =>
  desk.board
    .locator('canvas')
    .first()
    .evaluate((element) => {
      const canvas = element as HTMLCanvasElement;
      const { width, height } = canvas;
      const { data } = canvas.getContext('2d')!.getImageData(60, 60, width - 120, height - 120);
      let most = 0;
      for (let i = 4; i < data.length; i += 4)
        if ((i / 4) % (width - 120) !== 0) most = Math.max(most, Math.abs(data[i]! - data[i - 4]!));
      return most;
    });

/** Brings the readers of PDFs that are at work to an end, as a file does that is too much for them. */
async function endReaders(page: Page): Promise<void> {
  const readers = page.workers().filter((worker) => worker.url().includes('pdf-entry'));
  expect(readers).not.toEqual([]);
  for (const reader of readers)
    await reader.evaluate(() => {
      setTimeout(() => {
        throw new Error('too much');
      });
    });
}

/** Shows a place of the sheet, in points, ever closer. */
async function zoomTo(desk: Job, x: number, y: number, notches: number): Promise<void> {
  const plan = await desk.plan();
  const sheet = backgroundOf(plan);
  const chart = await desk.fit(plan);
  const at = chart(
    fromPicture(sheet, [(x * sheet.width) / SHEET.width, (y * sheet.height) / SHEET.height]),
  );
  await desk.page.mouse.move(at.x, at.y);
  for (let i = 0; i < notches; i++) await desk.page.mouse.wheel(0, -120);
}

const assetsOf = (text: string): { type: string; data: string }[] =>
  Object.values(JSON.parse(text).assets);

for (const [name, type, bytes] of [
  ['workshop.pdf', 'application/pdf', () => fixture('workshop-floor.pdf')],
  ['workshop.svg', 'image/svg+xml', () => gunzipSync(fixture('workshop-floor.svg.gz'))],
] as const)
  test(`${type} is kept as it is, and is sharp however near one looks`, async ({ page }) => {
    const desk = await brought(page, name, type, bytes());
    const [asset] = assetsOf(await desk.saved());
    expect(asset!.type).toBe(type);
    expect(Buffer.from(asset!.data, 'base64').equals(bytes())).toBe(true);
    await page.getByLabel(t('base.fade')).fill('100');
    if (type === 'application/pdf') await endReaders(page);
    // The heavy wall at the left, far nearer than the whole sheet was drawn.
    await zoomTo(desk, SHEET.inside.left, 1150, 14);
    await expect.poll(() => sharpness(desk), { timeout: 20_000 }).toBeGreaterThan(150);
    if (type !== 'application/pdf') return;
    // It is started anew once, and then it is said that it is not.
    await endReaders(page);
    await page.mouse.wheel(0, -120);
    await expect(desk.notices).toContainText('stopped twice');
  });

test('a PDF that is cropped and turned is still the PDF that it was, and as sharp', async ({
  page,
}) => {
  const bytes = fixture('workshop-floor.pdf');
  const desk = await brought(page, 'workshop.pdf', 'application/pdf', bytes);
  await page.getByLabel(t('base.fade')).fill('100');
  await desk.shelf.getByText(t('base.shape')).click();
  await desk.take(t('base.crop'));
  const plan = await desk.plan();
  const whole = backgroundOf(plan);
  const chart = await desk.fit(plan);
  const at = (x: number, y: number) =>
    chart(fromPicture(whole, [x * whole.width, y * whole.height]));
  await desk.drag(at(0.1, 0.3), at(0.6, 0.8));
  await desk.shelf.getByRole('button', { name: t('base.turn') }).click();
  const shaped = backgroundOf(await desk.plan());
  expect(Math.abs(shaped.crop!.x1 / whole.width - 0.6)).toBeLessThan(0.01);
  expect(shaped.turn).toBe(90);
  const [asset] = assetsOf(await desk.saved());
  expect(Buffer.from(asset!.data, 'base64').equals(bytes)).toBe(true);
  await zoomTo(desk, SHEET.inside.left, 1150, 14);
  await expect.poll(() => sharpness(desk), { timeout: 20_000 }).toBeGreaterThan(150);
});

test('the scale that is printed on a sheet can be typed, and what was traced goes along if it should', async ({
  page,
}) => {
  const desk = await brought(page, 'w.pdf', 'application/pdf', fixture('workshop-floor.pdf'));
  const setTo = async (text: string, follow: boolean) => {
    await desk.to('base');
    await desk.shelf.getByRole('button', { name: t('base.printed') }).click();
    await desk.dialog.getByLabel(t('scale.printed')).fill(text);
    if (follow) await desk.dialog.getByRole('radio', { name: t('follow.follow') }).check();
    await desk.dialog.getByRole('button', { name: t('length.set.go') }).click();
    await expect(desk.dialog).toHaveCount(0);
  };
  await setTo('1/8" = 1\'-0"', false);
  await expect(desk.leg('base')).toContainText('1/8" = 1\'-0"');
  // Traced at the wrong scale: one wall along the inside of the building.
  const wrong = await desk.plan();
  const chart = await desk.fit(wrong);
  const on = (x: number, y: number) => {
    const of = backgroundOf(wrong);
    return chart(fromPicture(of, [(x * of.width) / SHEET.width, (y * of.height) / SHEET.height]));
  };
  await desk.to('rooms');
  await page.keyboard.press('w');
  await desk.click(on(SHEET.inside.left, SHEET.inside.at));
  await desk.click(on(SHEET.inside.right, SHEET.inside.at));
  await page.keyboard.press('Enter');
  await page.keyboard.press('Escape');
  await setTo('1/4" = 1\'-0"', true);
  await expect(desk.leg('base')).toContainText('1/4" = 1\'-0"');
  const right = await desk.plan();
  const lengthOf = (plan: Plan): number => {
    const [wall] = [...plan.tables.walls.values()];
    return Math.hypot(wall!.b[0] - wall!.a[0], wall!.b[1] - wall!.a[1]) / FT;
  };
  // The sheet says that the inside is 113' wide.
  expect(Math.abs(lengthOf(right) / 113 - 1)).toBeLessThan(0.01);
  await desk.undo().click();
  expect(lengthOf(await desk.plan())).toBeCloseTo(2 * lengthOf(right), 0);
});

test('a phone photo lies as it was taken, and its sheet is made upright by four corners', async ({
  page,
}) => {
  // A phone held upright writes its rows sideways and says so: EXIF orientation 6.
  const photo = await page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
    const upright = await createImageBitmap(new Blob([bytes]));
    const canvas = new OffscreenCanvas(upright.height, upright.width);
    const context = canvas.getContext('2d')!;
    context.translate(0, upright.width);
    context.rotate(-Math.PI / 2);
    context.drawImage(upright, 0, 0);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.95 });
    const jpeg = new Uint8Array(await blob.arrayBuffer());
    return btoa(Array.from(jpeg, (byte) => String.fromCharCode(byte)).join(''));
  }, photographedPlan().toString('base64'));
  const desk = await brought(page, 'photo.jpg', 'image/jpeg', turned(Buffer.from(photo, 'base64')));
  const plan = await desk.plan();
  const { width, height, photo: told } = backgroundOf(plan);
  expect([width, height]).toEqual([PHOTO.width, PHOTO.height]);
  // The sheet lies on a dark table, so the whole is a photo; what is left of it is a drawing.
  expect(told).toBe(true);

  // The card asks for that before it asks for the scale.
  await desk.card.getByRole('button', { name: t('base.straighten-first') }).click();
  const chart = await desk.fit(plan);
  const at = (x: number, y: number) => chart(fromPicture(backgroundOf(plan), [x, y]));
  const inset = 0.12;
  const first = [
    [inset, inset],
    [1 - inset, inset],
    [1 - inset, 1 - inset],
    [inset, 1 - inset],
  ] as const;
  for (const [i, [u, v]] of first.entries())
    await desk.drag(at(u * width, v * height), at(...PHOTO.corners[i]!));
  await page.getByRole('button', { name: t('board.finish') }).click();
  await expect(desk.undo()).toHaveAccessibleName(/Straighten/, { timeout: 30_000 });
  const straight = await desk.plan();
  const upright = backgroundOf(straight);
  expect(upright.photo).toBe(false);
  // The sheet has its own shape again, to what four corners on a screen can say.
  expect(Math.abs(upright.width / upright.height / (SCAN.width / SCAN.height) - 1)).toBeLessThan(
    0.04,
  );
  // And its walls stand where they were drawn on it.
  const [dark] = await wallsAcross(page, assetsOf(await desk.saved())[0]!);
  expect(Math.abs(dark! - SCAN.left / SCAN.width)).toBeLessThan(0.012);
  await desk.undo().click();
  expect(backgroundOf(await desk.plan()).width).toBe(PHOTO.width);
});

test('the lines of a sheet are the same, whether it came as a PDF or as an SVG', async ({
  context,
}) => {
  const { width, height, transform, ...operators } = await operatorsOf(
    context,
    fixture('workshop-floor.pdf'),
  );
  const pdf = readPdfLines(operators, { width, height, transform });
  const svg = readSvgLines(gunzipSync(fixture('workshop-floor.svg.gz')).toString())!;
  expect([pdf.lines.length, pdf.fills.length]).toEqual([svg.lines.length, svg.fills.length]);
  // Points and pixels: 72 and 96 to the inch.
  const apart = pdf.lines.map(({ a, b, width: breadth }, i) => {
    const other = svg.lines[i]!;
    const ends = [a[0] - other.a[0] * 0.75, a[1] - other.a[1] * 0.75, b[0] - other.b[0] * 0.75];
    return Math.max(...ends.map(Math.abs), Math.abs(breadth - other.width * 0.75));
  });
  expect(apart.length).toBeGreaterThan(2000);
  expect(Math.max(...apart)).toBeLessThan(0.001);
});

test('of a set of sheets one page is chosen, and printed as the lines that it is', async ({
  page,
  context,
}) => {
  const set = await PDFDocument.create();
  set.addPage([300, 300]).drawText('Cover');
  const [floor] = await set.copyPages(await PDFDocument.load(fixture('workshop-floor.pdf')), [0]);
  set.addPage(floor);
  const desk = await openJob(page);
  await desk.blank();
  const file = {
    name: 'set.pdf',
    mimeType: 'application/pdf',
    buffer: Buffer.from(await set.save()),
  };
  await desk.choose(file, () =>
    page
      .getByRole('button', { name: t('base.choose') })
      .first()
      .click(),
  );
  await expect(desk.dialog.locator('img')).toHaveCount(2);
  await desk.dialog.getByRole('button', { name: t('pages.page', { page: 2 }) }).click();
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), { timeout: 30_000 });
  const sheet = backgroundOf(await desk.plan());
  expect(sheet.page).toBe(2);
  expect(sheet.paper! / 25.4).toBeCloseTo(42, 3);
  await desk.to('print');
  const path = await desk.downloaded(() =>
    desk.shelf.getByRole('button', { name: t('print.go') }).click(),
  );
  const printed = await readPdf(context, path);
  // The words of the sheet can be searched in print: they are letters, not pixels.
  expect(printed.pages.map(({ text }) => text).join(' ')).toContain('28.25 inches is 113 feet');
});

test('an SVG is printed as a fine picture', async ({ page }) => {
  const svg = gunzipSync(fixture('workshop-floor.svg.gz'));
  const desk = await brought(page, 'w.svg', 'image/svg+xml', svg);
  await desk.to('print');
  const path = await desk.downloaded(() =>
    desk.shelf.getByRole('button', { name: t('print.go') }).click(),
  );
  const doc = await PDFDocument.load(readFileSync(path));
  const widths = doc.context
    .enumerateIndirectObjects()
    .flatMap(([, object]) => (object instanceof PDFRawStream ? [object.dict] : []))
    .filter((dict) => String(dict.get(PDFName.of('Subtype'))) === '/Image')
    .map((dict) => Number(String(dict.get(PDFName.of('Width')))));
  expect(Math.max(...widths)).toBeGreaterThanOrEqual(4000);
});

test('on a device that is held, the camera is at hand', async ({ browser, baseURL }) => {
  const context = await browser.newContext({
    ...(baseURL ? { baseURL } : {}),
    hasTouch: true,
    isMobile: true,
    viewport: { width: 1024, height: 768 },
  });
  const page = await context.newPage();
  const desk = await openJob(page, 'touch');
  await desk.blank();
  const photo = page.getByRole('button', { name: t('base.photo') }).first();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), photo.tap()]);
  expect(await chooser.element().getAttribute('capture')).toBe('environment');
  await chooser.setFiles({ name: 'p.png', mimeType: 'image/png', buffer: photographedPlan() });
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), SOON);
  await context.close();
});

/** A JPEG that says that its rows were written sideways: an APP1 segment by the Exif standard (CIPA DC-008). */
function turned(jpeg: Buffer): Buffer {
  const tiff = Buffer.from('4d4d002a00000008000101120003000000010006000000000000', 'hex');
  const body = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const head = Buffer.from([0xff, 0xe1, 0, body.length + 2]);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}

/** Where dark lines cross the middle of a kept picture, in shares of its width. */
const wallsAcross = (page: Page, { type, data }: { type: string; data: string }) =>
  page.evaluate(
    async ([mime, base64]) => {
      const bytes = Uint8Array.from(atob(base64!), (c) => c.charCodeAt(0));
      const image = await createImageBitmap(new Blob([bytes], { type: mime! }));
      const canvas = new OffscreenCanvas(image.width, 1);
      const context = canvas.getContext('2d')!;
      context.drawImage(image, 0, -Math.round(image.height * 0.8));
      const { data: row } = context.getImageData(0, 0, image.width, 1);
      const found: number[] = [];
      for (let x = 20; x < image.width - 20; x++)
        if (row[4 * x]! < 120 && row[4 * (x + 1)]! >= 120) found.push((x + 1) / image.width);
      return found;
    },
    [type, data],
  );

test('a large scan is taken in beside the work, and stopping it leaves nothing behind', async ({
  page,
}) => {
  const desk = await openJob(page);
  await desk.blank();
  const { largeScan } = await import('./picture.ts');
  let goOn = () => {};
  const stopped = new Promise<void>((done) => {
    goOn = done;
  });
  // A quick machine would be done before anybody could press the button.
  await page.route('**/assets/picture-entry*', async (route) => {
    await stopped;
    await route.continue();
  });
  await desk.choose({ name: 'large.png', mimeType: 'image/png', buffer: largeScan() }, () =>
    page
      .getByRole('button', { name: t('base.choose') })
      .first()
      .click(),
  );
  await page.getByRole('button', { name: t('progress.stop') }).click();
  await expect(desk.notices).toContainText('Stopped');
  goOn();
  expect((await desk.plan()).tables.backgrounds.size).toBe(0);
});

test('several plans lie over each other in an order, each cropped, locked and put away by itself', async ({
  page,
}) => {
  const svg = gunzipSync(fixture('workshop-floor.svg.gz'));
  const desk = await brought(page, 'first.svg', 'image/svg+xml', svg);
  const photo = { name: 'second.png', mimeType: 'image/png', buffer: photographedPlan() };
  await desk.choose(photo, () =>
    desk.shelf.getByRole('button', { name: t('base.choose') }).click(),
  );
  await expect(desk.shelf.getByRole('heading', { name: 'second' })).toBeVisible(SOON);
  const part = desk.shelf.locator('section').filter({
    has: page.getByRole('heading', { name: 'second', exact: true }),
  });
  await part.getByRole('button', { name: t('base.under') }).click();
  await expect(desk.undo()).toHaveAccessibleName(/under/);
  await part.getByText(t('base.shape')).click();
  await part.getByRole('button', { name: new RegExp(`^${t('base.crop')}`) }).click();
  const plan = await desk.plan();
  const second = [...plan.tables.backgrounds.values()].find((b) => b.name === 'second')!;
  const chart = await desk.fit(plan);
  const at = (x: number, y: number) => chart(fromPicture(second, [x, y]));
  await desk.drag(at(200, 200), at(1400, 1000));
  await part.getByLabel(t('base.lock')).uncheck();
  const after = (await desk.plan()).tables.backgrounds;
  const [bottom, top] = [...after.values()].sort((a, b) => a.order - b.order);
  expect([bottom!.name, top!.name]).toEqual(['second', 'first']);
  expect(bottom!.locked).toBe(false);
  expect(Math.abs(bottom!.crop!.x0 - 200)).toBeLessThan(6);
  expect(Math.abs(bottom!.crop!.x1 - 1400)).toBeLessThan(6);
});

test('a picture is pasted, a WebP is brought, and a scan says how fine it is', async ({
  page,
  context,
}) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  const desk = await openJob(page);
  await desk.blank();
  const drawn = (type: string) =>
    page.evaluate(async (mime) => {
      const canvas = new OffscreenCanvas(300, 200);
      const pen = canvas.getContext('2d')!;
      pen.fillStyle = '#fff';
      pen.fillRect(0, 0, 300, 200);
      pen.strokeRect(20, 20, 260, 160);
      const blob = await canvas.convertToBlob({ type: mime });
      if (mime === 'image/png')
        await navigator.clipboard.write([new ClipboardItem({ 'image/png': blob })]);
      const bytes = new Uint8Array(await blob.arrayBuffer());
      return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
    }, type);
  await drawn('image/png');
  await page.keyboard.press('Control+v');
  await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), SOON);
  const pasted = backgroundOf(await desk.plan());
  expect([pasted.width, pasted.height, pasted.dots]).toEqual([300, 200, null]);

  const webp = Buffer.from(await drawn('image/webp'), 'base64');
  expect(webp.subarray(8, 12).toString('latin1')).toBe('WEBP');
  const choose = (name: string, mimeType: string, buffer: Buffer) =>
    desk.choose({ name, mimeType, buffer }, () =>
      desk.shelf.getByRole('button', { name: t('base.choose') }).click(),
    );
  await choose('sketch.webp', 'image/webp', webp);
  await expect(desk.shelf.getByRole('heading', { name: 'sketch' })).toBeVisible(SOON);

  const { scannedPlan } = await import('./picture.ts');
  await choose('scan.png', 'image/png', scannedPlan(200));
  await expect(desk.shelf.getByRole('heading', { name: 'scan', exact: true })).toBeVisible(SOON);
  const sheets = [...(await desk.plan()).tables.backgrounds.values()];
  expect(sheets.map(({ name }) => name)).toEqual([pasted.name, 'sketch', 'scan']);
  expect(sheets[1]!.width).toBe(300);
  const scan = sheets[2]!;
  // It is offered and not applied: the sheet lies as wide as one that says nothing.
  expect([Math.round(scan.dots!), scan.paper]).toEqual([200, null]);
  expect(scan.mmPerPixel * scan.width).toBeCloseTo(20_000, 0);
  const printed = t('base.of', { tool: t('base.printed'), name: 'scan' });
  await desk.shelf.getByRole('button', { name: printed }).click();
  await expect(desk.dialog.getByRole('textbox', { name: t('scale.dots') })).toHaveValue('200');
  await expect(desk.dialog).toContainText(t('scale.dots-said', { dots: '200' }));
});
