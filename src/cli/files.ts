import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { kinds } from '../kinds/index.ts';
import type { AssetText, PlanFile } from '../plan/codec.ts';
import { job, type Plan } from '../plan/plan.ts';
import type { Survey } from '../results/types.ts';
import { canEmbed } from '../sheets/pdf/embed-page.ts';
import { FONT_FILES } from '../sheets/pdf/font-files.ts';
import { type PdfAsset, type PdfFonts, writePdf } from '../sheets/pdf/write-pdf.ts';
import { printJob } from '../sheets/print-job.ts';
import type { PaperName } from '../sheets/sheet.ts';
import { cableSchedule, cableScheduleCsv } from '../takeoff/cable-schedule.ts';
import { materialListCsv } from '../takeoff/material-list.ts';

async function fonts(): Promise<PdfFonts> {
  const entries = Object.entries(FONT_FILES).map(async ([face, name]) => {
    const file = new URL(`../../public/fonts/${name}.ttf`, import.meta.url);
    return [face, new Uint8Array(await readFile(file))] as const;
  });
  return Object.fromEntries(await Promise.all(entries)) as unknown as PdfFonts;
}

const bytesOf = (assets: ReadonlyMap<string, AssetText>): Map<string, PdfAsset> =>
  new Map(
    [...assets].map(([hash, { type, data }]) => [
      hash,
      { type, bytes: new Uint8Array(Buffer.from(data, 'base64')) },
    ]),
  );

/** A plan without the backgrounds that only a browser can draw, and their names. */
async function printable(
  plan: Plan,
  assets: ReadonlyMap<string, PdfAsset>,
): Promise<{ readonly plan: Plan; readonly left: readonly string[] }> {
  const backgrounds = new Map(plan.tables.backgrounds);
  const left: string[] = [];
  for (const { id, name, asset: hash, page, hidden } of plan.tables.backgrounds.values()) {
    const asset = assets.get(hash);
    if (hidden || !asset || asset.type === 'image/png' || asset.type === 'image/jpeg') continue;
    if (asset.type === 'application/pdf' && (await canEmbed(asset.bytes, page))) continue;
    backgrounds.delete(id);
    left.push(name || id);
  }
  return { plan: { tables: { ...plan.tables, backgrounds } }, left };
}

const DAY = new Intl.DateTimeFormat('en-US', { dateStyle: 'long', timeZone: 'UTC' });

/**
 * Writes the cable schedule, the material list and the printed plan into a folder, which is made if it is not there.
 *
 * @param now day of printing
 * @returns the paths of the files, and the names of backgrounds that could not be drawn on the plan
 */
export async function writeFiles(
  folder: string,
  { plan, assets }: PlanFile,
  survey: Survey,
  paper: PaperName,
  now: Date,
): Promise<{ readonly files: string[]; readonly left: readonly string[] }> {
  const { units, name } = job(plan);
  const schedule = cableSchedule(plan, kinds, survey.runs, survey.boxPlan);
  const pictures = bytesOf(assets);
  const drawn = await printable(plan, pictures);
  const pages = printJob(drawn.plan, survey, kinds, { paper, printed: DAY.format(now) });
  const pdf = await writePdf(pages, {
    fonts: await fonts(),
    assets: pictures,
    title: name,
    date: now,
  });
  await mkdir(folder, { recursive: true });
  const files: [string, string | Uint8Array][] = [
    ['schedule.csv', cableScheduleCsv(schedule, units)],
    ['materials.csv', materialListCsv(survey.price)],
    ['plan.pdf', pdf],
  ];
  for (const [file, content] of files) await writeFile(join(folder, file), content);
  return { files: files.map(([file]) => join(folder, file)), left: drawn.left };
}
