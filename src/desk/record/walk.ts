import type { KeyboardEvent } from 'react';

const STEPS: Readonly<Record<string, 1 | -1>> = { Enter: 1, ArrowDown: 1, ArrowUp: -1 };

/** Enter and the arrows go down and up a column of cells, Shift and Enter up; what was typed is read on the way. */
export function walkColumn(event: KeyboardEvent<HTMLElement>): void {
  const step = STEPS[event.key];
  const cell = event.target;
  if (!step || !(cell instanceof HTMLInputElement)) return;
  event.preventDefault();
  const up = event.shiftKey || step < 0;
  const row = cell.closest('tr');
  const next = up ? row?.previousElementSibling : row?.nextElementSibling;
  const below = next?.querySelector<HTMLInputElement>(`[data-field="${cell.dataset.field}"]`);
  below?.focus();
  below?.select();
}
