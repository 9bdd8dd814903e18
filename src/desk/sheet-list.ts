import { useEffect, useState } from 'react';
import type { Message } from '../base/message.ts';

/** A sheet that can be printed. */
export interface SheetChoice {
  readonly id: string;
  readonly title: Message;
}

const NONE: readonly SheetChoice[] = [];

/** The sheets that can be printed, fetched when somebody first wants them; empty until they are here. */
export function useSheetList(): readonly SheetChoice[] {
  const [list, setList] = useState(NONE);
  useEffect(() => {
    let wanted = true;
    void import('../sheets/print-job.ts').then(({ sheetList }) => {
      if (wanted) setList(sheetList());
    });
    return () => {
      wanted = false;
    };
  }, []);
  return list;
}
