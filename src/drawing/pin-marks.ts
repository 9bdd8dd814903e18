import { onLevel } from '../plan/plan.ts';
import { boxAround, take } from './label-place.ts';
import { type Drafting, toPaper } from './plan-view.ts';
import { PIN_REACH, pinSymbol } from './symbols.ts';

/** The places that runs are made to pass, each on the spot, numbered where a pin has several. */
export function pinMarks({ plan, view, field, wants, put }: Drafting): void {
  if (!wants('pins')) return;
  for (const pin of onLevel(plan, 'pins', view.level))
    pin.points.forEach((at, i) => {
      take(field, boxAround(toPaper(view, at), PIN_REACH * 2, PIN_REACH * 2));
      const number = pin.points.length > 1 ? String(i + 1) : '';
      put('pins', { op: 'symbol', at, marks: pinSymbol(number) });
    });
}
