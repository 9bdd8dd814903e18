// Runs every check of the project, one after the other, and ends with one line that counts the tests. A step that
// fails ends the run; the line is printed all the same.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { env, execPath } from 'node:process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const results = join(root, 'node_modules/.cache/results');
const unitResults = join(results, 'unit.json');
const browserResults = join(results, 'browser.json');

/** A port that is free now, so that a preview that somebody has open is neither used nor in the way. */
const freePort = () =>
  new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = /** @type {import('node:net').AddressInfo} */ (server.address());
      server.close(() => resolve(String(port)));
    });
  });

/** @param {string} path of a package's own program */
const bin = (path) => join(root, 'node_modules', path);

/** @type {[name: string, args: string[]][]} */
const steps = [
  ['Browser', [join(root, 'tests/chromium.mjs')]],
  ['Types', [bin('typescript/bin/tsc'), '--noEmit']],
  ['Core without a screen', [bin('typescript/bin/tsc'), '-p', 'tests/tidy/tsconfig.core.json']],
  ['Style', [bin('@biomejs/biome/bin/biome'), 'check', '--diagnostic-level=error', '.']],
  ['Unused code', [bin('knip/bin/knip.js')]],
  [
    'Unit tests',
    [
      bin('vitest/vitest.mjs'),
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${unitResults}`,
    ],
  ],
  ['Build', [bin('vite/bin/vite.js'), 'build']],
  [
    'Browser tests',
    [bin('@playwright/test/cli.js'), 'test', '-c', 'tests', '--reporter=list,json'],
  ],
];

/**
 * Counts of a report; nothing is counted when a tool did not get so far as to write one.
 *
 * @param {string} path
 * @param {(report: any) => [passed: number, failed: number]} counts
 * @returns {[passed: number, failed: number]}
 */
function counted(path, counts) {
  try {
    return counts(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return [0, 0];
  }
}

rmSync(results, { recursive: true, force: true });
mkdirSync(results, { recursive: true });
const port = env.TEST_PORT ?? (await freePort());
let broke = false;
for (const [name, args] of steps) {
  console.log(`\n== ${name}`);
  const { status } = spawnSync(execPath, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...env, TEST_PORT: port, PLAYWRIGHT_JSON_OUTPUT_FILE: browserResults },
  });
  broke = status !== 0;
  if (broke) {
    console.log(`\n${name}: failed`);
    break;
  }
}

const [unitPassed, unitFailed] = counted(unitResults, (r) => [r.numPassedTests, r.numFailedTests]);
const [browserPassed, browserFailed] = counted(browserResults, ({ stats }) => [
  stats.expected + stats.flaky,
  stats.unexpected,
]);
const failed = Math.max(unitFailed + browserFailed, broke ? 1 : 0);
process.exitCode = broke ? 1 : 0;
console.log(`\n${unitPassed + browserPassed} passed, ${failed} failed`);
