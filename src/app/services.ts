import { cutShort } from '../base/cut-short.ts';
import { type Message, msg } from '../base/message.ts';
import type { StraightenRequest } from '../board/index.ts';
import type { SessionApi } from '../board/session.ts';
import { fitPlan } from '../board/view.ts';
import { showProgress } from '../desk/index.tsx';
import type { ChoosePage, Services } from '../desk/services.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { emptyPlan, job, type Plan } from '../plan/plan.ts';
import type { AssetPort, SurveyPort } from '../ports/ports.ts';
import type { ReturnedList } from '../results/returned.ts';
import { fileName } from '../storage/file-name.ts';
import { inOneSentence, readJob, writeJob } from '../storage/job-file.ts';
import { cableSchedule, cableScheduleCsv } from '../takeoff/cable-schedule.ts';
import { materialListCsv } from '../takeoff/material-list.ts';
import { t } from '../text/index.ts';
import { checkSize, download, pickFile, saveAs, takePhoto, unforeseen } from './files.ts';
import { isDrawing, mayBeAslant, PALE_STRENGTH } from './pictures/aslant.ts';
import { HEAD, sniff } from './pictures/sniff.ts';
import { type Taking, takePicture } from './pictures/take.ts';
import { Trouble, trouble } from './pictures/trouble.ts';
import { uprightOf } from './pictures/upright.ts';
import { printedPdf } from './print.ts';
import { replacePlan } from './replace.ts';
import type { Surveying } from './surveying.ts';

export interface ServiceParts {
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly assets: AssetPort;
  readonly surveys: Pick<SurveyPort, 'closets'>;
  readonly surveying: Surveying;
  /** The time now. */
  readonly now: () => Date;
}

/** How long something may take before a notice says that it is under way, ms. */
const SILENT = 500;

/** What the desk asks of the app. Whatever goes wrong is said in a notice, and the open job stays as it is. */
export function createServices({
  session,
  kinds,
  assets,
  surveys,
  surveying,
  now,
}: ServiceParts): Services {
  const known = new Set(kinds.keys());
  const plan = (): Plan => session.getState().history.plan;
  const say = (message: Message, tone?: 'warning') => session.getState().actions.say(message, tone);

  /** Does something that may go wrong, and says so; what takes long is said too. */
  async function attempt(under: Message, act: () => Promise<void>): Promise<void> {
    let notice: number | null = null;
    const timer = setTimeout(() => {
      say(under);
      notice = session.getState().notices.at(-1)?.id ?? null;
    }, SILENT);
    try {
      await act();
    } catch (error) {
      say(error instanceof Trouble ? error.words : unforeseen(error), 'warning');
    } finally {
      clearTimeout(timer);
      if (notice !== null) session.getState().actions.dismiss(notice);
    }
  }

  async function openText(name: string, text: string): Promise<void> {
    const read = await readJob(text, known);
    if (!read.ok)
      trouble('“{name}” was not opened. {issues}', { name, issues: inOneSentence(read.issues) });
    for (const asset of read.value.assets) await assets.put(asset);
    replacePlan(session, read.value.plan);
  }

  /** Does something long that can be stopped, and shows how far it is. */
  async function along(
    words: string,
    act: (steps: Pick<Taking, 'signal' | 'progress'>) => Promise<void>,
  ): Promise<void> {
    const shown = showProgress(words, SILENT);
    try {
      await act(shown);
    } catch (error) {
      if (shown.signal.aborted) say(msg('Stopped. Nothing was changed.'));
      else say(error instanceof Trouble ? error.words : unforeseen(error), 'warning');
    } finally {
      shown.done();
    }
  }

  async function take(
    file: File,
    choosePage: ChoosePage | null,
    steps: Pick<Taking, 'signal' | 'progress'>,
  ): Promise<void> {
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
    const { level, actions } = session.getState();
    const { width, height, paper, dots, page, photo, asset } = taken;
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
      ...(mayBeAslant(taken) ? { opacity: PALE_STRENGTH } : {}),
    });
    if (!laid) return;
    // The card then says what is next, and the plan is not in the way of the first drag on it.
    actions.set({ leg: 'base', selection: [] });
    fitPlan(session);
    const next = mayBeAslant(taken)
      ? msg('“{name}” is here. Straighten it if it was taken at an angle, then set its scale.', {
          name,
        })
      : msg('“{name}” is here. Next, set its scale.', { name });
    actions.say(next, 'plain', true);
  }

  const bring = (file: File, choosePage: ChoosePage | null): Promise<void> =>
    along(t('progress.reading', { name: file.name }), (steps) => take(file, choosePage, steps));

  async function straighten({ background, corners }: StraightenRequest): Promise<void> {
    const row = plan().tables.backgrounds.get(background);
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
    newJob: async () => {
      replacePlan(session, emptyPlan());
      session.getState().actions.set({ leg: 'base' });
    },

    openSample: (id) =>
      attempt(msg('Loading the sample …'), async () => {
        await openText(`${id}.json`, await sampleText(id));
      }),

    openFile: () =>
      attempt(msg('Opening …'), async () => {
        const file = await pickFile();
        if (file) await bring(file, null);
      }),

    bring,

    choosePicture: async (choosePage) => {
      const file = await pickFile().catch((error) => say(unforeseen(error), 'warning'));
      if (file) await bring(file, choosePage);
    },

    takePhoto: async (choosePage) => {
      const file = await takePhoto();
      if (file) await bring(file, choosePage);
    },

    straighten,

    isDrawing: async (asset) => {
      const kept = await assets.get(asset);
      return kept !== null && isDrawing(kept);
    },

    saveFile: () =>
      attempt(msg('Writing the file …'), async () => {
        const written = await writeJob(plan(), assets);
        if (!written.ok) trouble('{issues}', { issues: inOneSentence(written.issues) });
        const name = fileName(job(plan()).name, '.dropwise.json');
        const blob = new Blob([written.value], { type: 'application/json' });
        if (await saveAs(blob, name)) say(msg('Saved as “{name}”.', { name }));
      }),

    print: (paper, sheets) =>
      attempt(msg('Drawing the sheets …'), async () => {
        const { plan: of, survey } = await surveying.current();
        const choice = { paper, sheets, now: now() };
        const { pdf, pages, lacking } = await printedPdf(of, survey, kinds, assets, choice);
        const name = fileName(job(of).name, '.pdf');
        download(pdf, name);
        say(
          pages === 1
            ? msg('Handed over as “{name}”, 1 page. Print it at 100 %.', { name })
            : msg('Handed over as “{name}”, {pages} pages. Print them at 100 %.', { name, pages }),
        );
        if (lacking.length > 0) say(unprinted(lacking), 'warning');
      }),

    studyClosets: async () => {
      const of = plan();
      return { plan: of, study: await surveys.closets(of) };
    },

    countPages: async (paper, sheets) => {
      const { printJob } = await import('../sheets/print-job.ts');
      const { plan: of, survey } = await surveying.current();
      return printJob(of, survey, kinds, { paper, sheets, printed: '' }).length;
    },

    saveCsv: (what) =>
      attempt(msg('Writing the list …'), async () => {
        const { plan: of, survey } = await surveying.current();
        const { name, units } = job(of);
        const text =
          what === 'materials'
            ? materialListCsv(survey.price)
            : cableScheduleCsv(cableSchedule(of, kinds, survey.runs, survey.boxPlan), units);
        const title = what === 'materials' ? 'materials' : 'cable schedule';
        // The mark in front tells spreadsheets that the text is UTF-8.
        const blob = new Blob([`\ufeff${text}`], { type: 'text/csv;charset=utf-8' });
        download(blob, fileName(`${name} ${title}`, '.csv'));
      }),

    bringRecord: async () => {
      let list: ReturnedList | null = null;
      await attempt(msg('Reading the list …'), async () => {
        const file = await pickFile();
        if (!file) return;
        const { readReturned } = await import('./returned.ts');
        const { plan: of, survey } = await surveying.current();
        list = await readReturned(file, of, survey, kinds);
      });
      return list;
    },
  };
}

/** Letters named at once: enough to know which words are meant. */
const MOST_NAMED = 8;

/** What is said of letters that the fonts of the sheets do not have. */
const unprinted = (lacking: readonly string[]): Message =>
  msg(
    'The sheets have boxes where the fonts for printing have no letter: {letters}. Write those words in Latin letters, or save the list as a spreadsheet, which holds every letter.',
    { letters: lacking.slice(0, MOST_NAMED).join(' ') + (lacking.length > MOST_NAMED ? ' …' : '') },
  );

/** The text of a sample that comes with the program. */
export async function sampleText(id: 'restaurant' | 'cafe'): Promise<string> {
  const answer = await fetch(new URL(`samples/${id}.json`, document.baseURI)).catch(() => null);
  if (!answer?.ok)
    return trouble('The sample could not be loaded. Reload the page, or begin on a blank sheet.');
  return answer.text();
}
