import type { KindRegistry } from '../kinds/kind.ts';
import { job, type Plan } from '../plan/plan.ts';
import type { ReturnedList } from '../results/returned.ts';
import type { Survey } from '../results/types.ts';
import { cableSchedule } from '../takeoff/cable-schedule.ts';
import { readSchedule } from '../takeoff/read-schedule.ts';
import { checkSize } from './files.ts';
import { trouble } from './pictures/trouble.ts';

/** Reads a cable schedule that the crew filled in against the job as it is. */
export async function readReturned(
  file: File,
  plan: Plan,
  survey: Survey,
  kinds: KindRegistry,
): Promise<ReturnedList> {
  checkSize(file);
  const text = decoded(new Uint8Array(await file.arrayBuffer()));
  if (text.includes('\0'))
    trouble(
      '“{name}” is no CSV file. Save the list from the spreadsheet as CSV, then bring that.',
      {
        name: file.name,
      },
    );
  const rows = cableSchedule(plan, kinds, survey.runs, survey.boxPlan);
  return readSchedule(text, rows, job(plan).units);
}

/** Text as spreadsheets save it: UTF-16 with its mark in front, UTF-8, or else the code page of western Windows. */
export function decoded(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}
