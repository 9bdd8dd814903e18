import { type SessionApi, shownPlan, type Viewport } from '../board/session.ts';
import type { Point } from '../geometry/point.ts';
import type { Plan, Ref } from '../plan/plan.ts';
import type { Finding } from '../results/types.ts';

/** All places of a row, for showing the whole of it. */
function placesOf(plan: Plan, ref: Ref): readonly Point[] {
  const row = plan.tables[ref.table].get(ref.id) as Readonly<Record<string, unknown>> | undefined;
  if (!row) return [];
  if (ref.table === 'jacks') return placesOf(plan, { table: 'outlets', id: String(row['outlet']) });
  const one = [row['at'], row['a'], row['b'], row['origin']].filter(Boolean) as Point[];
  const many = (row['outline'] ?? row['points'] ?? []) as readonly Point[];
  return [...one, ...many];
}

/** Room round what is shown, mm: enough to see where it is. */
const ROUND = 3000;

/** The view that has these places in the middle: no closer than it is now unless they need it. */
export function viewOn(view: Viewport, places: readonly Point[]): Viewport {
  if (places.length === 0) return view;
  const xs = places.map((p) => p[0]);
  const ys = places.map((p) => p[1]);
  const [left, right] = [Math.min(...xs) - ROUND, Math.max(...xs) + ROUND];
  const [top, bottom] = [Math.min(...ys) - ROUND, Math.max(...ys) + ROUND];
  const fits = Math.min(view.width / (right - left), view.height / (bottom - top));
  const scale = Math.min(fits, Math.max(view.scale, 0.05));
  return {
    ...view,
    scale,
    left: (left + right) / 2 - view.width / scale / 2,
    top: (top + bottom) / 2 - view.height / scale / 2,
  };
}

/** Selects things and brings them into view. */
export function showRefs(session: SessionApi, refs: readonly Ref[]): void {
  const { viewport, actions } = session.getState();
  const plan = shownPlan(session.getState());
  const first = refs.map((ref) => levelOf(plan, ref)).find((level) => level !== null);
  actions.set({
    viewport: viewOn(
      viewport,
      refs.flatMap((ref) => [...placesOf(plan, ref)]),
    ),
    ...(first ? { level: first } : {}),
  });
  actions.select(refs);
}

export function showFinding(session: SessionApi, finding: Finding): void {
  if (finding.subjects.length > 0) showRefs(session, finding.subjects);
  const { viewport, actions } = session.getState();
  if (finding.at)
    actions.set({ level: finding.at.level, viewport: viewOn(viewport, [finding.at.point]) });
}

function levelOf(plan: Plan, ref: Ref): string | null {
  const row = plan.tables[ref.table].get(ref.id) as Readonly<Record<string, unknown>> | undefined;
  if (!row) return null;
  if (ref.table === 'jacks') return levelOf(plan, { table: 'outlets', id: String(row['outlet']) });
  return typeof row['level'] === 'string' ? row['level'] : null;
}
