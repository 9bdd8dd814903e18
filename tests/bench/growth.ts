import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { surveyInBrowser } from './fresh-worker.ts';
import { bound, plain, type Row, type Section } from './table.ts';

/** What a process of its own found out about a site of a size. */
export interface Grown {
  readonly jacks: number;
  readonly nodes: number;
  /** Of the first survey in a fresh process, and of one more from nothing, ms. */
  readonly first: number;
  readonly again: number;
  /** Most memory of the process before and after, MB. */
  readonly before: number;
  readonly after: number;
}

const SIZES = [50, 200, 500, 2000, 5000];
/** The size that is to be surveyed within a second. */
const LARGE = 2000;
/** Browsers that are started for it, one after the other. */
const BROWSERS = 5;

const run = promisify(execFile);

async function grown(jacks: number): Promise<Grown> {
  const child = fileURLToPath(new URL('./growth-child.ts', import.meta.url));
  const { stdout } = await run(process.execPath, ['--import', 'tsx', child, String(jacks)]);
  return JSON.parse(stdout) as Grown;
}

/** Surveys of offices with as many walls as jacks, each in a process of its own; the large one in a browser too. */
export async function growth(): Promise<Section> {
  const rows: Row[] = [];
  let last: Grown | null = null;
  for (const jacks of SIZES) {
    const found = await grown(jacks);
    const { first, again, nodes, before, after } = found;
    const what = `${jacks.toLocaleString('en')} jacks and walls`;
    const note = `once more ${again.toFixed(0)} ms; ${nodes.toLocaleString('en')} nodes`;
    const memory = `${before.toFixed(0)} MB of it before the survey`;
    rows.push(
      plain(`${what}: first survey of a process`, `${first.toFixed(0)} ms`, note),
      jacks === LARGE
        ? bound('– memory of the process', after, 'at most', 300, 'MB', memory)
        : plain('– memory of the process', `${after.toFixed(0)} MB`, memory),
    );
    if (jacks === LARGE) {
      const browser = await surveyInBrowser(jacks, BROWSERS);
      const often = `median of ${BROWSERS}; once more ${browser.again.toFixed(0)} ms`;
      rows.push(
        bound("– first survey in a browser's worker", browser.first, 'at most', 1000, 'ms', often),
      );
    }
    if (last) {
      const power = Math.log(again / last.again) / Math.log(jacks / last.jacks);
      rows.push(plain('– time grows with the size to the power of', power.toFixed(2)));
    }
    last = found;
  }
  return { name: 'growth', title: 'Growth: offices with as many walls as jacks', rows };
}
