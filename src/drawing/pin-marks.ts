import { onLevel, type Pin } from '../plan/plan.ts';
import { boxAround } from './box-grid.ts';
import { place, take } from './label-place.ts';
import { type Drafting, inOneLine, toBuilding, toPaper } from './plan-view.ts';
import { leaderMark } from './put-symbol.ts';
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
    if (plan.tables.pins.size > 1) for (const pin of here) pinName(drafting, pin);
  };
}

const NAME_SIZE = 2;

function pinName(drafting: Drafting, pin: Pin): void {
  const { view, field, put, leaveOut } = drafting;
  if (pin.name === '') return;
  const name = inOneLine(view, pin.name, NAME_SIZE);
  const placed = place(field, {
    anchor: toPaper(view, pin.points[0]!),
    reach: PIN_REACH,
    width: view.measure.width(name, NAME_SIZE, 'sans', false) + 0.5,
    height: 2.4,
    onAnchor: false,
  });
  if (!placed) {
    leaveOut('pins', pin.name);
    return;
  }
  if (placed.leader) put('leaders', leaderMark(drafting, placed.leader, 'cable'));
  put('pins', {
    op: 'symbol',
    at: toBuilding(view, placed.at),
    marks: [
      {
        ...{ op: 'text', at: [0, 0], text: name, size: NAME_SIZE, ink: 'cable' },
        ...{ align: 'centre', vertical: 'middle', halo: 'paper' },
      },
    ],
  });
}
