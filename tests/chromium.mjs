// Finds a Chromium for the tests, or gets one. Plain JavaScript, so that it runs before anything is built.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { argv, env, getuid, platform } from 'node:process';
import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';

/** Where Chromium and its relatives usually are. */
const PLACES = {
  linux: [
    ...[
      'chromium',
      'chromium-browser',
      'google-chrome',
      'google-chrome-stable',
      'microsoft-edge',
    ].map((name) => `/usr/bin/${name}`),
    '/snap/bin/chromium',
  ],
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ],
  win32: [env.ProgramFiles, env['ProgramFiles(x86)'], env.LOCALAPPDATA].flatMap((base) =>
    base
      ? [
          join(base, 'Google/Chrome/Application/chrome.exe'),
          join(base, 'Microsoft/Edge/Application/msedge.exe'),
        ]
      : [],
  ),
};

/** The browser to drive: the one that CHROMIUM_PATH names, Playwright's own, or one in a usual place; else null. */
export function find() {
  const named = env.CHROMIUM_PATH;
  if (named) {
    if (existsSync(named)) return named;
    throw new Error(`CHROMIUM_PATH is ${named}, but there is no such file.`);
  }
  const places = /** @type {Record<string, string[]>} */ (PLACES)[platform] ?? [];
  return [chromium.executablePath(), ...places].find((path) => path && existsSync(path)) ?? null;
}

const root = () => getuid?.() === 0;

/** How the tests start it: without network chatter, with letters and colours that are the same everywhere. */
export function launch() {
  const executablePath = find();
  return {
    ...(executablePath ? { executablePath } : {}),
    args: [
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--font-render-hinting=none',
      '--force-color-profile=srgb',
      // Chromium refuses its sandbox to the administrator, who is the only user of most build machines.
      ...(root() ? ['--no-sandbox'] : []),
    ],
  };
}

/**
 * @param {string} command
 * @param {string[]} args
 */
const carriedOut = (command, args) => spawnSync(command, args, { stdio: 'inherit' }).status === 0;

/** Gets a browser: by Playwright, and where that fails, by the system's packages if we may. */
function install() {
  const cli = fileURLToPath(import.meta.resolve('@playwright/test/cli'));
  if (carriedOut(process.execPath, [cli, 'install', 'chromium']) && find()) return;
  if (platform !== 'linux' || !root() || !existsSync('/usr/bin/apt-get')) return;
  const apt = {
    stdio: /** @type {const} */ ('inherit'),
    env: { ...env, DEBIAN_FRONTEND: 'noninteractive' },
  };
  try {
    execFileSync('apt-get', ['update', '-qq'], apt);
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], apt);
  } catch {
    // What is missing is said below, once for all ways.
  }
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  if (!find()) install();
  if (!find()) {
    console.error(
      'The tests need Chromium or Chrome, and could not install it. Install one, or set CHROMIUM_PATH to its program.',
    );
    process.exitCode = 1;
  }
}
