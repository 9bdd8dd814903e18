import { lazy, Suspense } from 'react';
import { type DeskParts, DeskProvider } from '../context.tsx';
import { ask } from '../dialogs/dialog.tsx';

const RecordDialog = lazy(() => import('./record-dialog.tsx'));

/** Opens the table of what was built; it is fetched when somebody first wants it. */
export function openRecord(parts: DeskParts): void {
  void ask<null>((answer) => (
    <DeskProvider parts={parts}>
      <Suspense fallback={null}>
        <RecordDialog onShut={() => answer(null)} />
      </Suspense>
    </DeskProvider>
  ));
}
