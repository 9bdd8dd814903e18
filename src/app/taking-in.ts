import { cutShort } from '../base/cut-short.ts';
import { msg } from '../base/message.ts';
import type { StraightenRequest } from '../board/index.ts';
import type { SessionApi } from '../board/session.ts';
import { fitPlan } from '../board/view.ts';
import type { ChoosePage, Services } from '../desk/services.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { AssetPort } from '../ports/ports.ts';
import { inOneSentence, readJob } from '../storage/job-file.ts';
import { t } from '../text/index.ts';
import type { Attempts, Steps } from './attempts.ts';
import { checkSize, pickFile, takePhoto } from './files.ts';
import { isDrawing, mayBeAslant, PALE_STRENGTH } from './pictures/aslant.ts';
import { HEAD, sniff } from './pictures/sniff.ts';
import { type Taken, takePicture } from './pictures/take.ts';
import { trouble } from './pictures/trouble.ts';
import { uprightOf } from './pictures/upright.ts';
import { replacePlan } from './replace.ts';
import type { Surveying } from './surveying.ts';

interface TakingInParts {
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly assets: AssetPort;
  readonly surveying: Surveying;
  readonly attempts: Attempts;
}

type TakingIn = Pick<
  Services,
  | 'openSample'
  | 'openFile'
  | 'bring'
  | 'choosePicture'
  | 'takePhoto'
  | 'straighten'
  | 'isDrawing'
  | 'bringRecord'
>;

/** What comes into the program: jobs, pictures, and lists that the crew filled in. */
export function takingIn(parts: TakingInParts): TakingIn {
  const { session, kinds, assets, surveying } = parts;
  const { say, attempt, along } = parts.attempts;
  const known = new Set(kinds.keys());

  async function openText(name: string, text: string): Promise<void> {
    const read = await readJob(text, known);
    if (!read.ok)
      trouble('“{name}” was not opened. {issues}', { name, issues: inOneSentence(read.issues) });
    for (const asset of read.value.assets) await assets.put(asset);
    replacePlan(session, read.value.plan);
  }

  async function take(file: File, choosePage: ChoosePage | null, steps: Steps): Promise<void> {
    checkSize(file);
    const { name } = file;
    const found = sniff(new Uint8Array(await file.slice(0, HEAD).arrayBuffer()));
    if (found.kind === 'plan') return openText(name, await file.text());
    if (found.kind === 'empty') trouble('“{name}” is empty. Bring another copy of it.', { name });
    if (found.kind === 'other')
      trouble(
        '“{name}” is {what}, which cannot be opened here. A floor plan can be a PDF, PNG, JPEG, WebP or SVG; a job is a file that was saved here.',
        { name, what: found.what },
      );
    if (!choosePage)
      trouble('“{name}” is a picture, not a job. Bring it as a floor plan on the Base leg.', {
        name,
      });
    const taken = await takePicture(file, found.kind, { ...steps, choosePage });
    steps.signal.throwIfAborted();
    if (!taken) return;
    await assets.put(taken.asset);
    lay(session, name, taken);
  }

  const bring = async (file: File | null, choosePage: ChoosePage | null): Promise<void> => {
    if (!file) return;
    await along(t('progress.reading', { name: file.name }), (steps) =>
      take(file, choosePage, steps),
    );
  };

  const pick = (): Promise<File | null> => attempt(null, pickFile);

  async function straighten({ background, corners }: StraightenRequest): Promise<void> {
    const row = session.getState().history.plan.tables.backgrounds.get(background);
    const asset = row ? await assets.get(row.asset) : null;
    if (!row || !asset) return say(msg('That background is no longer there.'), 'warning');
    await along(t('progress.straightening'), async (steps) => {
      const upright = await uprightOf(asset, row, corners, steps.signal);
      steps.progress(0.9);
      await assets.put(upright.asset);
      steps.signal.throwIfAborted();
      const { width, height, photo } = upright;
      const args = { background, corners, asset: upright.asset.hash, width, height, photo };
      session.getState().actions.run('straighten-background', args);
    });
  }

  return {
    openSample: async (id) => {
      await attempt(msg('Loading the sample …'), async () =>
        openText(`${id}.json`, await sampleText(id)),
      );
    },
    openFile: async () => bring(await pick(), null),
    bring,
    choosePicture: async (choosePage) => bring(await pick(), choosePage),
    takePhoto: async (choosePage) => bring(await takePhoto(), choosePage),
    straighten,
    isDrawing: async (asset) => {
      const kept = await assets.get(asset);
      return kept !== null && isDrawing(kept);
    },
    bringRecord: async () => {
      const file = await pick();
      if (!file) return null;
      return attempt(msg('Reading the list …'), async () => {
        const { readReturned } = await import('./returned.ts');
        const { plan, survey } = await surveying.current();
        return readReturned(file, plan, survey, kinds);
      });
    },
  };
}

/** Lays a picture under the level that is drawn on. */
function lay(session: SessionApi, name: string, taken: Taken): void {
  const { level, actions } = session.getState();
  const { width, height, paper, dots, page, photo, asset } = taken;
  const aslant = mayBeAslant(taken);
  const laid = actions.run('add-background', {
    level,
    name: cutShort(name.replace(/\.[^.]*$/, ''), 80),
    asset: asset.hash,
    page,
    width,
    height,
    paper,
    dots,
    photo,
    ...(aslant ? { opacity: PALE_STRENGTH } : {}),
  });
  if (!laid) return;
  // The card then says what is next, and the plan is not in the way of the first drag on it.
  actions.set({ leg: 'base', selection: [] });
  fitPlan(session);
  const next = aslant
    ? msg('“{name}” is here. Straighten it if it was taken at an angle, then set its scale.', {
        name,
      })
    : msg('“{name}” is here. Next, set its scale.', { name });
  actions.say(next, 'plain', true);
}

/** The text of a sample that comes with the program. */
export async function sampleText(id: 'restaurant' | 'cafe'): Promise<string> {
  const answer = await fetch(new URL(`samples/${id}.json`, document.baseURI)).catch(() => null);
  if (!answer?.ok)
    return trouble('The sample could not be loaded. Reload the page, or begin on a blank sheet.');
  return answer.text();
}
