import { readFileSync } from 'node:fs';
import { expect, type Locator, type Page } from '@playwright/test';
import type { Leg } from '../../src/board/session.ts';
import { fitted, planExtent } from '../../src/board/view.ts';
import type { Point } from '../../src/geometry/point.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { t } from '../../src/text/index.ts';
import { planOf } from './core.ts';

/** How long a survey may take to reach the screen on a busy machine, ms. */
export const SOON = { timeout: 15_000 };

/** A file as the file button or a drop hands it over. */
export interface Brought {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

/** A place on the page, px. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** The place on the page of a place in the plan. */
export type Chart = (at: Point) => Spot;

/** Opens the site on a device that has never seen it, and waits until it stands. */
export async function openJob(page: Page, by: 'mouse' | 'touch' = 'mouse'): Promise<Job> {
  // The browser's own file windows cannot be driven; without them the site uses the file button and downloads.
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, 'showOpenFilePicker');
    Reflect.deleteProperty(window, 'showSaveFilePicker');
  });
  await page.goto('./');
  const job = new Job(page, by === 'touch');
  await job.stands();
  return job;
}

/** The site as a person sees it: everything is found by its role and its name. */
export class Job {
  readonly page: Page;
  readonly touch: boolean;
  readonly board: Locator;
  readonly shelf: Locator;
  readonly card: Locator;
  readonly bench: Locator;
  readonly ladder: Locator;
  readonly notices: Locator;
  readonly dialog: Locator;
  /** The board's own words about what to do next. */
  readonly hint: Locator;

  constructor(page: Page, touch = false) {
    this.page = page;
    this.touch = touch;
    this.board = page.getByRole('application', { name: 'Floor plan' });
    this.shelf = page.getByRole('complementary', { name: t('panel.shelf') });
    this.card = page.getByRole('complementary', { name: t('panel.card') });
    this.bench = page.getByRole('region', { name: t('bench.label') });
    this.ladder = page.getByRole('region', { name: t('ladder.title') });
    this.notices = page.getByRole('status', { name: t('notices.label') });
    this.dialog = page.getByRole('dialog');
    this.hint = page.getByRole('region', { name: 'Drawing' }).getByRole('status');
  }

  async stands(): Promise<void> {
    await expect(this.board.locator('canvas').first()).toBeVisible(SOON);
  }

  /** Presses something, with the mouse or with a finger. */
  press = (what: Locator): Promise<void> => (this.touch ? what.tap() : what.click());

  /** A leg of the job line; its name says its figure. */
  leg(leg: Leg): Locator {
    return this.page
      .getByRole('navigation', { name: t('legs.label') })
      .getByRole('button', { name: new RegExp(`^${t(`leg.${leg}`)}\\b`) });
  }

  /** What a leg says of the job now, without its name. */
  async figure(leg: Leg): Promise<string> {
    const words = await this.leg(leg).locator('span').allTextContents();
    return words.slice(1).join(' ').trim();
  }

  async to(leg: Leg): Promise<void> {
    await this.press(this.leg(leg));
    await expect(this.leg(leg)).toHaveAttribute('aria-current', 'step');
  }

  /** A tool of the shelf, or a device of it. */
  tool = (name: string): Locator =>
    this.shelf.getByRole('button', { name: new RegExp(`^${escaped(name)}\\b`) });

  async take(name: string): Promise<void> {
    await this.press(this.tool(name));
    // On a narrow screen the shelf goes away, and the board is free for the tool.
    if (await this.tool(name).isVisible())
      await expect(this.tool(name)).toHaveAttribute('aria-pressed', 'true');
  }

  async menu(item: string): Promise<void> {
    const button = this.page.getByRole('button', { name: t('menu.job'), exact: true });
    // The start panel offers some of the same.
    const entry = this.page.locator('.drop-list').getByRole('button', { name: item });
    await this.press(button);
    await this.press(entry);
  }

  /** Begins an empty job. */
  async blank(): Promise<void> {
    await this.menu(t('menu.new'));
    await expect(this.leg('base')).toContainText(t('leg.base.blank'), SOON);
  }

  /** The job as its file holds it, saved by the key, or from the menu where there are no keys. */
  async saved(): Promise<string> {
    const text = await this.download(() =>
      this.touch ? this.menu(t('menu.save')) : this.page.keyboard.press('Control+s'),
    );
    // What the site says of it would lie over the drawing for a while.
    const said = this.notices.locator('div').filter({ hasText: /^Saved as/ });
    await this.press(said.getByRole('button', { name: t('notices.shut') }).last());
    await expect(said).toHaveCount(0);
    return text;
  }

  async plan(): Promise<Plan> {
    return planOf(await this.saved());
  }

  /** What is handed over as a download. */
  async download(act: () => Promise<unknown>): Promise<string> {
    return readFileSync(await this.downloaded(act), 'utf8');
  }

  async downloaded(act: () => Promise<unknown>): Promise<string> {
    const [download] = await Promise.all([
      this.page.waitForEvent('download', { timeout: 30_000 }),
      act(),
    ]);
    return download.path();
  }

  /** Hands a file to the file button that an action opens. */
  async choose(file: Brought | string, act: () => Promise<unknown>): Promise<void> {
    const [chooser] = await Promise.all([this.page.waitForEvent('filechooser'), act()]);
    await chooser.setFiles(file);
  }

  async openFile(file: Brought): Promise<void> {
    await this.choose(file, () => this.menu(t('menu.open')));
  }

  /** Fits the drawing into the board; says where on the page each place of the plan then is. */
  async fit(plan: Plan): Promise<Chart> {
    await this.press(this.page.getByRole('button', { name: 'Fit', exact: true }));
    const level = [...plan.tables.levels.keys()][0]!;
    const extent = planExtent(plan, level) ?? { x0: 0, y0: 0, x1: 20_000, y1: 13_000 };
    const box = await this.canvas();
    const { width, height } = box;
    const view = fitted({ scale: 1, left: 0, top: 0, width, height }, extent);
    return ([x, y]) => ({
      x: box.x + (x - view.left) * view.scale,
      y: box.y + (y - view.top) * view.scale,
    });
  }

  async canvas(): Promise<Spot & { width: number; height: number }> {
    const box = await this.board.locator('canvas').first().boundingBox();
    if (!box) throw new Error('the board is not on the page');
    return box;
  }

  async click(at: Spot): Promise<void> {
    await (this.touch ? this.page.touchscreen.tap(at.x, at.y) : this.page.mouse.click(at.x, at.y));
  }

  async drag(from: Spot, to: Spot): Promise<void> {
    await this.page.mouse.move(from.x, from.y);
    await this.page.mouse.down();
    await this.page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 4 });
    await this.page.mouse.move(to.x, to.y, { steps: 4 });
    await this.page.mouse.up();
  }

  undo = (): Locator => this.bench.getByRole('button', { name: /^Undo:/ });
  redo = (): Locator => this.bench.getByRole('button', { name: /^Redo:/ });

  /** Answers the question for a real length, after a line was drawn. */
  async answerLength(text: string, go: string): Promise<void> {
    await this.dialog.getByRole('textbox', { name: t('length.real') }).fill(text);
    await this.dialog.getByRole('button', { name: go }).click();
    await expect(this.dialog).toHaveCount(0);
  }

  /** The ladder as a table of figures: a row of cells for each run. */
  async ladderRows(): Promise<string[][]> {
    await this.ladder.getByRole('radio', { name: t('ladder.list') }).check();
    const rows = this.ladder.getByRole('table').locator('tbody').getByRole('row');
    const cells = await rows.evaluateAll((found) =>
      found.map((row) => [...row.children].map((cell) => cell.textContent!.trim())),
    );
    return cells;
  }

  /** The open sum of a run on the card: its cable, and its lines below it. */
  sum = (label: string): Locator =>
    this.card.getByRole('table', { name: t('run.caption', { label }) });

  async sumCells(label: string): Promise<{ lines: string[]; cable: string; channel: string }> {
    const rows = await this.sum(label)
      .getByRole('row')
      .evaluateAll((found) => found.map((row) => row.lastElementChild!.textContent!.trim()));
    // Above the lines: the cable, the channel, and what is ordered.
    return { lines: rows.slice(3), cable: rows[0]!, channel: rows[1]! };
  }

  cable = (label: string): Locator =>
    this.sum(label)
      .getByRole('row', { name: new RegExp(`^${t('run.cable')}`) })
      .getByRole('cell');
}

export const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
