import { type Message, msg, renderMessage } from '../base/message.ts';
import { riserEnd, risersOn } from '../plan/levels.ts';
import type { Level, Riser } from '../plan/plan.ts';
import { runsByRiser } from '../results/risers.ts';
import { boxAround } from './box-grid.ts';
import { take } from './label-place.ts';
import { type Drafting, toPaper } from './plan-view.ts';
import { putName } from './put-name.ts';
import { RISER_REACH, riserSymbol } from './symbols.ts';

/** Whether a riser goes up from a level, and not down. */
export const goesUp = (riser: Riser, level: Level['id']): boolean => riser.level === level;

/** Where a riser leads from a level, with how many cables go by it; none are counted where nobody knows. */
export function riserWords(to: string, up: boolean, cables: number | null): Message {
  const way = up ? 'up' : 'down';
  if (cables === null) return msg(`${way} to {level}`, { level: to });
  if (cables === 1) return msg(`${way} to {level}, 1 cable`, { level: to });
  return msg(`${way} to {level}, {cables} cables`, { level: to, cables });
}

/**
 * Risers, on both their levels: an arrow up where it goes up from here, down where it comes from below. Returns what
 * puts their words, to be called when other symbols have their room.
 */
export function riserMarks(drafting: Drafting): () => void {
  const { plan, survey, view, field, wants, put } = drafting;
  const here = wants('risers') ? risersOn(plan, view.level) : [];
  for (const riser of here) {
    take(field, boxAround(toPaper(view, riser.at), RISER_REACH * 2, RISER_REACH * 2));
    put('risers', {
      op: 'symbol',
      at: riser.at,
      marks: riserSymbol(goesUp(riser, view.level)),
    });
  }
  const runs = survey && runsByRiser(survey.runs);
  return () => {
    for (const riser of here)
      riserLabel(drafting, riser, runs && (runs.get(riser.id)?.length ?? 0));
  };
}

function riserLabel(drafting: Drafting, riser: Riser, cables: number | null): void {
  const { plan, view, units } = drafting;
  const other = riserEnd(plan, riser, view.level);
  if (!other) return;
  const name = [riser.name, riser.size].filter((word) => word !== '').join(', ');
  const to = renderMessage(riserWords(other.name, goesUp(riser, view.level), cables), units);
  putName(drafting, {
    group: 'risers',
    at: riser.at,
    reach: RISER_REACH,
    lines: [
      { text: name, size: 2.2, bold: true, ink: 'ink' },
      { text: to, size: 2, ink: 'soft' },
    ],
    ink: 'ink',
  });
}
