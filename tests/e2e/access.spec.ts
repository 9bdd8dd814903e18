import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { LEGS } from '../../src/board/session.ts';
import { fromPicture } from '../../src/plan/picture-place.ts';
import { job } from '../../src/plan/plan.ts';
import { t } from '../../src/text/index.ts';
import { planOf, sampleText } from './core.ts';
import { type Job, openJob, SOON } from './job.ts';
import { SCAN, scannedPlan } from './picture.ts';

/**
 * What axe finds on the page as it is now, in words that say where.
 *
 * @param parts the parts of the page that are looked at; all of it where none is named
 */
async function faults(page: Page, where: string, parts: readonly string[]): Promise<string[]> {
  // There are no frames here; so axe need not open a second page for its sums.
  const axe = new AxeBuilder({ page }).setLegacyMode(true);
  for (const part of parts) axe.include(part);
  const { violations } = await axe.analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${where}: ${id}: ${node.html.slice(0, 160)}: ${node.failureSummary}`),
  );
}

/** The landmarks of the page: what a leg, a panel or a question changes is looked at, and the whole page once. */
const LINE = 'header';
const PANELS = 'aside';
const MIDDLE = 'main';
const QUESTION = 'dialog';

const CAFE = job(planOf(sampleText('cafe'))).name;

// What is found says where it is; a recording of so many looks would take longer than the looks.
test.use({ trace: 'off' });

const SIZES = [
  { name: 'a laptop', width: 1280, height: 800 },
  { name: 'a tablet', width: 820, height: 1180 },
] as const;

/** Opens a panel that a narrow screen draws out; a wide one has it in sight. */
async function drawOut(desk: Job, panel: 'card' | 'ladder' | 'contents'): Promise<void> {
  const bar = desk.page.getByRole('navigation', { name: t('panel.bar') });
  if (await bar.isVisible())
    await bar.getByRole('button', { name: t(`panel.${panel}.short`) }).click();
  else if (panel === 'contents')
    await desk.bench.getByRole('button', { name: t('contents.title') }).click();
}

for (const { name, width, height } of SIZES)
  for (const colorScheme of ['light', 'dark'] as const)
    test.describe(`on ${name}, ${colorScheme}`, () => {
      test.use({ viewport: { width, height }, colorScheme });

      test('axe has nothing against any leg, panel or card', async ({ page }) => {
        const desk = await openJob(page);
        // The smaller sample has everything that the large one has, and takes half the time.
        await desk.menu(t('menu.sample-cafe'));
        await expect(page.getByRole('textbox', { name: t('job.name') })).toHaveValue(CAFE, SOON);
        await expect(desk.leg('runs')).toContainText(/\d/, SOON);
        const found: string[] = [];
        const look = async (where: string, ...parts: string[]) =>
          found.push(...(await faults(page, where, parts)));
        for (const leg of LEGS) {
          if ((await desk.leg(leg).getAttribute('aria-current')) !== 'step') await desk.to(leg);
          await look(leg, ...(leg === LEGS[0] ? [] : [LINE, PANELS]));
        }
        await desk.shelf.getByRole('button', { name: t('built.open') }).click();
        await desk.dialog.getByRole('textbox').nth(2).fill('no length');
        await page.keyboard.press('Enter');
        await look('the record, with a word that is no length', QUESTION);
        await page.keyboard.press('ArrowUp');
        await page.keyboard.press('Escape');
        await desk.dialog.getByRole('button', { name: t('built.done') }).click();
        const plan = await desk.plan();
        await drawOut(desk, 'ladder');
        await desk.ladder.getByRole('radio', { name: t('ladder.list') }).check();
        await look('ladder as a list', MIDDLE);
        await desk.ladder
          .getByRole('button', { name: [...plan.tables.jacks.values()][0]!.label, exact: true })
          .click();
        await drawOut(desk, 'card');
        await look('card of a jack', PANELS);
        await drawOut(desk, 'contents');
        await look('contents', PANELS);
        const kind = desk.shelf.getByRole('group').filter({ hasText: 'Devices' }).first();
        await kind.getByRole('listitem').first().getByRole('button').first().click();
        await look('contents with a row open', PANELS);
        await drawOut(desk, 'card');
        await look('card of a device', PANELS);
        expect(found).toEqual([]);
      });

      test('axe has nothing against the start, the menus and the dialogs', async ({ page }) => {
        const desk = await openJob(page);
        const found: string[] = [];
        const look = async (where: string, ...parts: string[]) =>
          found.push(...(await faults(page, where, parts)));
        await desk.bench.getByRole('button', { name: t('help.title') }).click();
        await expect(desk.dialog).toBeVisible();
        await look('help', QUESTION);
        await page.keyboard.press('Escape');
        await expect(desk.dialog).toHaveCount(0);
        await desk.bench.getByRole('button', { name: t('shown.label') }).click();
        await look('what is shown', MIDDLE);
        await page.keyboard.press('Escape');
        await page.getByRole('button', { name: t('menu.job'), exact: true }).click();
        await look('job menu', LINE);
        await page.keyboard.press('Escape');
        await desk.blank();
        await look('start', MIDDLE);

        const buffer = scannedPlan();
        await desk.choose({ name: 'hall.png', mimeType: 'image/png', buffer }, () =>
          page
            .getByRole('button', { name: t('base.choose') })
            .first()
            .click(),
        );
        await expect(desk.leg('base')).toContainText(t('leg.base.set-scale'), SOON);
        const plan = await desk.plan();
        const [picture] = [...plan.tables.backgrounds.values()];
        const chart = await desk.fit(plan);
        const on = (x: number, y: number) => chart(fromPicture(picture!, [x, y]));
        for (const [tool, go] of [
          [t('base.set'), t('length.set.go')],
          [t('base.check'), t('length.check.go')],
        ] as const) {
          if (!(await desk.tool(tool).isVisible())) await desk.leg('base').click();
          await desk.take(tool);
          await desk.drag(on(SCAN.left, 400), on(SCAN.right, 400));
          await desk.dialog.getByRole('textbox').fill('a door');
          await desk.dialog.getByRole('button', { name: go }).click();
          await look(`${go}, with a word that is no length`, QUESTION);
          await desk.answerLength("113'", go);
        }
        await desk.openFile({
          name: 'letter.json',
          mimeType: 'application/json',
          buffer: Buffer.from('{'),
        });
        await expect(desk.notices).toContainText('letter.json', SOON);
        await look('a warning', MIDDLE);
        expect(found).toEqual([]);
      });
    });
