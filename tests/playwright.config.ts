import { defineConfig } from '@playwright/test';
import { launch } from './chromium.mjs';

const port = process.env.TEST_PORT ?? '4173';
const address = `http://127.0.0.1:${port}`;

/** The browser tests drive the built program, as it is handed to its users. */
export default defineConfig({
  testDir: './e2e',
  outputDir: '../node_modules/.cache/playwright',
  snapshotPathTemplate: '{testDir}/__screenshots__/{testFileName}/{arg}{ext}',
  timeout: 300_000,
  expect: { timeout: 20_000 },
  workers: 1,
  forbidOnly: Boolean(process.env.CI),
  use: {
    baseURL: address,
    launchOptions: launch(),
    trace: 'retain-on-failure',
    timezoneId: 'UTC',
    locale: 'en-US',
  },
  webServer: {
    command: `npx vite preview --host 127.0.0.1 --port ${port} --strictPort`,
    url: address,
    cwd: '..',
    reuseExistingServer: false,
    timeout: 120_000,
  },
});
