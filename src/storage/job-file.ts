import { fail, type Issue, ok, type Result } from '../base/result.ts';
import { type AssetText, MAX_TEXT, readPlan, writePlan } from '../plan/codec.ts';
import type { Plan } from '../plan/plan.ts';
import type { Asset, AssetPort } from '../ports/ports.ts';
import { assetsOf, sha256 } from './assets.ts';
import { fromBase64, toBase64 } from './base64.ts';

/** A job as it stands in a file: the plan with the pictures that it shows. */
export interface JobFile {
  readonly plan: Plan;
  readonly assets: readonly Asset[];
}

/** Reads a plan file with its pictures; a picture whose bytes are not those of its name is an issue. */
export async function readJob(text: string, kinds: ReadonlySet<string>): Promise<Result<JobFile>> {
  const read = readPlan(text, kinds);
  if (!read.ok) return read;
  const assets: Asset[] = [];
  for (const [hash, picture] of read.value.assets) {
    const bytes = fromBase64(picture.data);
    if (!bytes || !(await sha256(bytes)).startsWith(hash))
      return fail(
        'damaged-picture',
        `The picture "${picture.name}" in this file is damaged. Open an older copy of the file.`,
        `assets.${hash}`,
      );
    assets.push({ hash, name: picture.name, type: picture.type, bytes });
  }
  return ok({ plan: read.value.plan, assets });
}

/** The job as the text of a file. A picture that this device does not have is an issue: the file would not open. */
export async function writeJob(plan: Plan, store: AssetPort): Promise<Result<string>> {
  const assets = new Map<string, AssetText>();
  const missing: Issue[] = [];
  for (const hash of assetsOf(plan)) {
    const asset = await store.get(hash);
    if (asset)
      assets.set(hash, { name: asset.name, type: asset.type, data: toBase64(asset.bytes) });
    else missing.push({ code: 'no-picture', path: `assets.${hash}`, message: MISSING });
  }
  if (missing.length > 0) return { ok: false, issues: missing };
  const text = writePlan(plan, assets);
  return text.length > MAX_TEXT ? fail('too-large', TOO_LARGE) : ok(text);
}

const TOO_LARGE =
  'With its pictures this job is larger than a file that can be opened again (150 MB). Remove a background that you no longer need, or bring it smaller; the job itself stays kept on this device.';

const MISSING =
  'A background of this job is no longer on this device, so a file with it would not open. Remove that background, or bring its picture again.';

/** The issues in one sentence for the screen: the first, and how many more there are. */
export function inOneSentence(issues: readonly Issue[]): string {
  const [first, ...more] = issues;
  if (!first) return '';
  return more.length === 0 ? first.message : `${first.message} And ${more.length} more.`;
}
