import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';
import { build, preview } from 'vite';
import { launch } from '../chromium.mjs';

const home = fileURLToPath(new URL('./survey-page', import.meta.url));

/**
 * Surveys an office of so many jacks and walls where users do: in a worker of a browser, built as the program is. Each
 * time in a browser that was started for it: the first survey, and one more from nothing, ms, medians.
 */
export async function surveyInBrowser(
  jacks: number,
  times: number,
): Promise<{ first: number; again: number }> {
  const outDir = mkdtempSync(join(tmpdir(), 'survey-page-'));
  const config = { root: home, base: './', configFile: false, logLevel: 'error' } as const;
  await build({
    ...config,
    build: { outDir, emptyOutDir: true, target: 'es2022' },
    worker: { format: 'es' },
  });
  const server = await preview({
    ...config,
    build: { outDir },
    preview: { host: '127.0.0.1', port: 0 },
  });
  try {
    const found: (readonly [number, number])[] = [];
    for (let i = 0; i < times; i++) {
      const browser = await chromium.launch(launch());
      const page = await browser.newPage();
      await page.goto(server.resolvedUrls!.local[0]!);
      found.push(
        await page.evaluate(
          (n) =>
            (
              window as unknown as { survey(jacks: number): Promise<readonly [number, number]> }
            ).survey(n),
          jacks,
        ),
      );
      await browser.close();
    }
    return { first: median(found.map(([one]) => one)), again: median(found.map(([, two]) => two)) };
  } finally {
    await server.close();
    rmSync(outDir, { recursive: true });
  }
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1]!;
