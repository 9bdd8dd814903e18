import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';
import { preview } from 'vite';
import { launch } from './chromium.mjs';

/** Draws the pictures of the documents from the built program and from the PDF that the command line writes. */
const root = fileURLToPath(new URL('..', import.meta.url));
const pictures = join(root, 'docs/pictures');

async function screens(): Promise<void> {
  const server = await preview({ root, preview: { host: '127.0.0.1', port: 0 } });
  const browser = await chromium.launch(launch());
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(server.resolvedUrls!.local[0]!);
    const runs = page.getByRole('navigation').getByRole('button', { name: /^Runs .*ft/ });
    await runs.click();
    await page.evaluate(() => document.fonts.ready.then(() => undefined));
    // The legs fade in what they bring forward.
    await page.waitForTimeout(1000);
    await page.screenshot({ path: join(pictures, 'board.png') });
  } finally {
    await browser.close();
    await server.close();
  }
}

function sheets(): void {
  const folder = mkdtempSync(join(tmpdir(), 'pictures-'));
  const plan = join(root, 'public/samples/restaurant.json');
  const args = ['--import', 'tsx', join(root, 'src/cli/takeoff.ts'), plan, '--out', folder];
  execFileSync(process.execPath, [...args, '--paper', 'tabloid'], { cwd: root, stdio: 'ignore' });
  execFileSync('pdftoppm', ['-r', '75', '-png', join(folder, 'plan.pdf'), join(folder, 'page')]);
  const pages = readdirSync(folder)
    .filter((name) => name.endsWith('.png'))
    .sort();
  ['plan-sheet.png', 'schedule.png'].forEach((name, i) => {
    copyFileSync(join(folder, pages[i]!), join(pictures, name));
  });
  rmSync(folder, { recursive: true });
}

mkdirSync(pictures, { recursive: true });
sheets();
await screens();
