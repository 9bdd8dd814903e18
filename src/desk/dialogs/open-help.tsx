import { lazy, Suspense } from 'react';
import type { SessionApi } from '../../board/session.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import { job } from '../../plan/plan.ts';
import { ask } from './dialog.tsx';

const Help = lazy(() => import('./help.tsx'));

/** Opens the list of keys; it is fetched when somebody first wants it. */
export function openHelp(kinds: KindRegistry, session: SessionApi): void {
  const units = job(session.getState().history.plan).units;
  void ask<null>((answer) => (
    <Suspense fallback={null}>
      <Help kinds={kinds} units={units} onShut={() => answer(null)} />
    </Suspense>
  ));
}
