import { onLevel } from '../plan/plan.ts';
import { boxAround } from './box-grid.ts';
import { take } from './label-place.ts';
import { type Drafting, toPaper } from './plan-view.ts';
import { putName } from './put-name.ts';
import { PIN_REACH, pinSymbol } from './symbols.ts';

/**
 * The places that runs are made to pass, each on the spot, numbered where a pin has several. Returns what puts their
 * names, to be called when other symbols have their room.
 */
export function pinMarks(drafting: Drafting): () => void {
  const { plan, view, field, wants, put } = drafting;
  const here = wants('pins') ? onLevel(plan, 'pins', view.level) : [];
  for (const pin of here)
    pin.points.forEach((at, i) => {
      take(field, boxAround(toPaper(view, at), PIN_REACH * 2, PIN_REACH * 2));
      const number = pin.points.length > 1 ? String(i + 1) : '';
      put('pins', { op: 'symbol', at, marks: pinSymbol(number) });
    });
  return () => {
    // A single pin needs no name to be found from the lists.
    if (plan.tables.pins.size > 1)
      for (const { name, points } of here)
        putName(drafting, {
          group: 'pins',
          at: points[0]!,
          reach: PIN_REACH,
          lines: [{ text: name, size: 2, ink: 'cable' }],
          ink: 'cable',
        });
  };
}
