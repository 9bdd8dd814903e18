import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { fail, type Issue, type Result } from '../base/result.ts';
import { kinds } from '../kinds/index.ts';
import { type PlanFile, planFileSchema, readPlan } from '../plan/codec.ts';
import { job } from '../plan/plan.ts';
import { closetStudy, createSurveyor } from '../survey/survey.ts';
import { HELP, readOptions, type Task } from './options.ts';
import { report } from './report.ts';
import { closetLines, summary } from './summary.ts';

/** What the command line has round it. */
export interface Surroundings {
  /** The folder from which relative paths start. */
  readonly folder: string;
  readonly now: Date;
  readonly out: (text: string) => void;
  readonly error: (text: string) => void;
}

const FILE_FAULTS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'it may not be read or written',
  EPERM: 'it may not be read or written',
  EROFS: 'it may not be read or written',
  EISDIR: 'it is a folder, not a file',
  ENOTDIR: 'a part of the path is a file, not a folder',
  EEXIST: 'a file with that name stands in the way',
  ENOSPC: 'the disk is full',
};

/** Why a file could not be read or written, in words. */
function faultOf(error: unknown): string {
  const code = (error as { code?: string }).code ?? '';
  return FILE_FAULTS[code] ?? (error instanceof Error ? error.message : String(error));
}

async function open(path: string): Promise<Result<PlanFile>> {
  try {
    return readPlan(await readFile(path, 'utf8'), new Set(kinds.keys()));
  } catch (error) {
    return fail('no-file', `${path} cannot be read: ${faultOf(error)}.`);
  }
}

/** One message for all issues: the first, and how many more there are. */
function inOne(issues: readonly Issue[]): string {
  const more = issues.length - 1;
  return `${issues[0]!.message}${more > 0 ? ` (${more} more of the kind.)` : ''}`;
}

async function takeOff(
  task: Extract<Task, { do: 'take-off' }>,
  { folder, now, out, error }: Surroundings,
): Promise<number> {
  const opened = await open(resolve(folder, task.plan));
  if (!opened.ok) {
    error(`${inOne(opened.issues)}\n`);
    return 1;
  }
  const { plan } = opened.value;
  const survey = createSurveyor(kinds)(plan);
  let written: { files: string[]; left: readonly string[] } = { files: [], left: [] };
  if (task.out !== null) {
    const target = resolve(folder, task.out);
    const paper = task.paper ?? (job(plan).units === 'ft' ? 'letter' : 'a4');
    try {
      // The PDF library is loaded only when a PDF is written.
      const { writeFiles } = await import('./files.ts');
      written = await writeFiles(target, opened.value, survey, paper, now);
    } catch (cause) {
      error(`${target} cannot be written to: ${faultOf(cause)}.\n`);
      return 1;
    }
  }
  const study = task.closets ? closetStudy(plan) : null;
  if (task.json) out(`${JSON.stringify(report(plan, survey, study))}\n`);
  else {
    const files = written.files.map((file) => `Written: ${file}\n`);
    const left = written.left.map(
      (name) => `Not on the printed plan: ${name}. Print from the browser to have it.\n`,
    );
    out([summary(plan, survey), ...closetLines(plan, study), ...files, ...left].join(''));
  }
  return 0;
}

/**
 * Runs the command line.
 *
 * @returns the exit code: 0, or 1 after one message on the error stream
 */
export async function run(args: readonly string[], around: Surroundings): Promise<number> {
  const options = readOptions(args);
  if (!options.ok) {
    around.error(`${inOne(options.issues)}\n`);
    return 1;
  }
  const task = options.value;
  if (task.do === 'take-off') return takeOff(task, around);
  around.out(task.do === 'help' ? HELP : `${JSON.stringify(planFileSchema(), null, 2)}\n`);
  return 0;
}
