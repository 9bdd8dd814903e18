import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Units } from '../base/units.ts';
import type { PaperName } from '../sheets/sheet.ts';
import { useDesk, useSession } from './context.tsx';

/** What somebody chose to print; it is kept while the page is open. */
export interface PrintChoice {
  /** Null until somebody chose: then the large paper of the job's units. */
  readonly paper: PaperName | null;
  /** Sheets that are left out. */
  readonly left: ReadonlySet<string>;
}

export type PrintChoiceApi = StoreApi<PrintChoice>;

export const createPrintChoice = (): PrintChoiceApi =>
  createStore<PrintChoice>()(() => ({ paper: null, left: new Set() }));

export const paperFor = (choice: PrintChoice, units: Units): PaperName =>
  choice.paper ?? (units === 'ft' ? 'tabloid' : 'a3');

export const usePrintChoice = (): PrintChoice => useStore(useDesk().printChoice);

/** How long the job must lie still before its pages are counted, ms. */
const STILL = 800;

/**
 * Pages that would be printed now. Counting lays every sheet out, so it waits until the job lies still; null until a
 * first count is in, and after the job was replaced.
 */
export function usePageCount(paper: PaperName, sheets: readonly string[]): number | null {
  const { services } = useDesk();
  const survey = useSession((s) => s.survey);
  const [count, setCount] = useState<number | null>(null);
  const chosen = sheets.join(' ');
  useEffect(() => {
    if (survey === null) return setCount(null);
    let wanted = true;
    const timer = setTimeout(async () => {
      const pages = await services.countPages(paper, chosen === '' ? [] : chosen.split(' '));
      if (wanted) setCount(pages);
    }, STILL);
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [services, survey, paper, chosen]);
  return count;
}
