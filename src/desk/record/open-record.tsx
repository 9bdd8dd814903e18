import { lazy, type ReactNode, Suspense } from 'react';
import type { ReturnedList } from '../../results/returned.ts';
import { type DeskParts, DeskProvider } from '../context.tsx';
import { ask } from '../dialogs/dialog.tsx';

const ReturnedDialog = lazy(() => import('./returned-dialog.tsx'));
const RecordDialog = lazy(() => import('./record-dialog.tsx'));

/** Opens a dialog of the record; it is fetched when somebody first wants it. */
function open(parts: DeskParts, draw: (onShut: () => void) => ReactNode): void {
  void ask<null>((answer) => (
    <DeskProvider parts={parts}>
      <Suspense fallback={null}>{draw(() => answer(null))}</Suspense>
    </DeskProvider>
  ));
}

/** Opens the table of what was built. */
export const openRecord = (parts: DeskParts): void =>
  open(parts, (onShut) => <RecordDialog onShut={onShut} />);

/** Shows what a list that came back would record. */
export const openReturned = (parts: DeskParts, list: ReturnedList): void =>
  open(parts, (onShut) => <ReturnedDialog list={list} onShut={onShut} />);
