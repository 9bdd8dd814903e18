import { type Part, type SessionApi, shownPlan, type Viewport } from '../board/session.ts';
import type { Point } from '../geometry/point.ts';
import { hasScale, shownCorners } from '../plan/picture-place.ts';
import type { Background, Plan, Ref } from '../plan/plan.ts';
import type { Finding } from '../results/types.ts';
import type { Key } from '../text/index.ts';
import { TOOL } from './tool-ids.ts';

/** All places of a row, for showing the whole of it. */
function placesOf(plan: Plan, ref: Ref): readonly Point[] {
  const row = plan.tables[ref.table].get(ref.id) as Readonly<Record<string, unknown>> | undefined;
  if (!row) return [];
  if (ref.table === 'jacks') return placesOf(plan, { table: 'outlets', id: String(row.outlet) });
  if (ref.table === 'backgrounds') return shownCorners(row as unknown as Background);
  const one = [row.at, row.a, row.b, row.origin].filter(Boolean) as Point[];
  const many = (row.outline ?? row.points ?? []) as readonly Point[];
  return [...one, ...many];
}

/** Room round what is shown, mm: enough to see where it is. */
const ROUND = 3000;

/**
 * The view that has these places in the middle of the board, or of the part of it that is free: no closer than it is now
 * unless they need it.
 */
export function viewOn(view: Viewport, places: readonly Point[], free: Part | null): Viewport {
  if (places.length === 0) return view;
  const xs = places.map((p) => p[0]);
  const ys = places.map((p) => p[1]);
  const [left, right] = [Math.min(...xs) - ROUND, Math.max(...xs) + ROUND];
  const [top, bottom] = [Math.min(...ys) - ROUND, Math.max(...ys) + ROUND];
  const part = free ?? { left: 0, top: 0, width: view.width, height: view.height };
  const fits = Math.min(part.width / (right - left), part.height / (bottom - top));
  const scale = Math.min(fits, Math.max(view.scale, 0.05));
  return {
    ...view,
    scale,
    left: (left + right) / 2 - (part.left + part.width / 2) / scale,
    top: (top + bottom) / 2 - (part.top + part.height / 2) / scale,
  };
}

/** Selects things and brings them into view. */
export function showRefs(session: SessionApi, refs: readonly Ref[]): void {
  const { viewport, actions, level: open, freePart } = session.getState();
  const plan = shownPlan(session.getState());
  const levels = refs.flatMap((ref) => levelsOf(plan, ref));
  const first = levels.includes(open) ? open : levels[0];
  actions.set({
    viewport: viewOn(
      viewport,
      refs.flatMap((ref) => [...placesOf(plan, ref)]),
      freePart(),
    ),
    ...(first ? { level: first } : {}),
  });
  // A level is shown and not selected: what is selected can be deleted by a key.
  actions.select(refs.filter((ref) => ref.table !== 'levels'));
}

/** Brings what a finding is about into view: the spot, or the whole of a picture, whose corner says nothing. */
export function showFinding(session: SessionApi, finding: Finding): void {
  if (finding.subjects.length > 0) showRefs(session, finding.subjects);
  const { viewport, actions, freePart } = session.getState();
  if (finding.at && !finding.subjects.some(({ table }) => table === 'backgrounds'))
    actions.set({
      level: finding.at.level,
      viewport: viewOn(viewport, [finding.at.point], freePart()),
    });
}

type ScaleToolName = Extract<Key, 'base.set' | 'base.check' | 'base.set-again'>;

/** The tool that mends a finding about the scale of a picture, which no command can, and its name; null for others. */
export function scaleTool(
  plan: Plan,
  finding: Finding,
): { tool: string; name: ScaleToolName } | null {
  const [picture] = finding.subjects.flatMap(({ table, id }) =>
    table === 'backgrounds' ? (plan.tables.backgrounds.get(id) ?? []) : [],
  );
  if (!picture) return null;
  if (!hasScale(picture)) return { tool: TOOL.setScale, name: 'base.set' };
  return picture.check === null
    ? { tool: TOOL.checkScale, name: 'base.check' }
    : { tool: TOOL.setScale, name: 'base.set-again' };
}

/** Opens the Base leg with a tool in hand and the picture of a finding in view. */
export function takeScaleTool(session: SessionApi, finding: Finding, tool: string): void {
  const { actions } = session.getState();
  actions.set({ leg: 'base' });
  showFinding(session, finding);
  actions.pick(tool);
}

/** The levels that a row can be seen on: a riser's two, a level itself. */
function levelsOf(plan: Plan, ref: Ref): string[] {
  const row = plan.tables[ref.table].get(ref.id) as Readonly<Record<string, unknown>> | undefined;
  if (!row) return [];
  if (ref.table === 'levels') return [ref.id];
  if (ref.table === 'jacks') return levelsOf(plan, { table: 'outlets', id: String(row.outlet) });
  return [row.level, row.upper].filter((level) => typeof level === 'string');
}

/**
 * Selects the run of a jack; where none of its way is on the open level, its jack's level opens.
 *
 * @param more whether it joins what is selected, or leaves it if it is selected already
 */
export function pickRun(session: SessionApi, jack: string, more = false): void {
  const { actions, level, survey, selection } = session.getState();
  const plan = shownPlan(session.getState());
  const run = survey?.runs.find((r) => r.jack === jack);
  const [own] = levelsOf(plan, { table: 'jacks', id: jack });
  const seen = own === level || run?.segments.some((segment) => segment.level === level);
  if (own !== undefined && !seen) actions.set({ level: own });
  const ref: Ref = { table: 'jacks', id: jack };
  if (!more) {
    actions.select([ref]);
    return;
  }
  const rest = selection.filter((other) => other.table !== 'jacks' || other.id !== jack);
  actions.select(rest.length < selection.length ? rest : [...selection, ref]);
}
