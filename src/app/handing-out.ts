import { type Message, msg } from '../base/message.ts';
import type { SessionApi } from '../board/session.ts';
import type { Services } from '../desk/services.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import { job } from '../plan/plan.ts';
import type { AssetPort } from '../ports/ports.ts';
import { fileName } from '../storage/file-name.ts';
import { inOneSentence, writeJob } from '../storage/job-file.ts';
import { cableSchedule, cableScheduleCsv } from '../takeoff/cable-schedule.ts';
import { materialListCsv } from '../takeoff/material-list.ts';
import type { Attempts } from './attempts.ts';
import { download, saveAs } from './files.ts';
import { trouble } from './pictures/trouble.ts';
import { printedPdf } from './print.ts';
import type { Surveying } from './surveying.ts';

interface HandingOutParts {
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly assets: AssetPort;
  readonly surveying: Surveying;
  readonly attempts: Attempts;
  /** The time now. */
  readonly now: () => Date;
}

type HandingOut = Pick<Services, 'saveFile' | 'print' | 'countPages' | 'saveCsv'>;

/** What leaves the program: the job as a file, its sheets and its lists. */
export function handingOut(parts: HandingOutParts): HandingOut {
  const { session, kinds, assets, surveying, now } = parts;
  const { say, attempt } = parts.attempts;

  async function written(): Promise<{ blob: Blob; name: string }> {
    const { plan } = session.getState().history;
    const text = await writeJob(plan, assets);
    if (!text.ok) trouble('{issues}', { issues: inOneSentence(text.issues) });
    const blob = new Blob([text.value], { type: 'application/json' });
    return { blob, name: fileName(job(plan).name, '.dropwise.json') };
  }

  return {
    saveFile: async () => {
      const file = await attempt(msg('Writing the file …'), written);
      if (!file) return;
      const saved = await attempt(null, () => saveAs(file.blob, file.name));
      if (saved) say(msg('Saved as “{name}”.', { name: file.name }));
    },

    print: async (paper, sheets) => {
      await attempt(msg('Drawing the sheets …'), async () => {
        const { plan, survey } = await surveying.current();
        const choice = { paper, sheets, now: now() };
        const { pdf, pages, lacking } = await printedPdf(plan, survey, kinds, assets, choice);
        const name = fileName(job(plan).name, '.pdf');
        download(pdf, name);
        say(
          pages === 1
            ? msg('Handed over as “{name}”, 1 page. Print it at 100 %.', { name })
            : msg('Handed over as “{name}”, {pages} pages. Print them at 100 %.', { name, pages }),
        );
        if (lacking.length > 0) say(unprinted(lacking), 'warning');
      });
    },

    countPages: async (paper, sheets) => {
      const { printJob } = await import('../sheets/print-job.ts');
      const { plan, survey } = await surveying.current();
      return printJob(plan, survey, kinds, { paper, sheets, printed: '' }).length;
    },

    saveCsv: async (what) => {
      await attempt(msg('Writing the list …'), async () => {
        const { plan, survey } = await surveying.current();
        const { name, units } = job(plan);
        const text =
          what === 'materials'
            ? materialListCsv(survey.price)
            : cableScheduleCsv(cableSchedule(plan, kinds, survey.runs, survey.boxPlan), units);
        const title = what === 'materials' ? 'materials' : 'cable schedule';
        // The mark in front tells spreadsheets that the text is UTF-8.
        const blob = new Blob([`\ufeff${text}`], { type: 'text/csv;charset=utf-8' });
        download(blob, fileName(`${name} ${title}`, '.csv'));
      });
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
