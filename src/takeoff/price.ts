import { type Message, msg } from '../base/message.ts';
import { toCents } from '../base/units.ts';
import { type Plan, type Prices, prices } from '../plan/plan.ts';
import type { Price, PriceLine, Run } from '../results/types.ts';
import { type LabourMinutes, labourMinutes } from './labour.ts';
import type { Part, Quantities } from './quantities.ts';

type Group = PriceLine['group'];

/** What can stand in the price, in the order in which it is listed. */
const MATERIAL: readonly { part: Part; label: Message; group: Group; unit: string }[] = [
  { part: 'cableBox', label: msg('Cable, by the box'), group: 'cable', unit: 'box' },
  { part: 'jack', label: msg('Jack, two for each cable'), group: 'outlets', unit: 'each' },
  { part: 'plate', label: msg('Plate'), group: 'outlets', unit: 'each' },
  { part: 'bracket', label: msg('Wall bracket'), group: 'outlets', unit: 'each' },
  { part: 'ceilingBox', label: msg('Ceiling box'), group: 'outlets', unit: 'each' },
  { part: 'floorBox', label: msg('Floor box'), group: 'outlets', unit: 'each' },
  { part: 'pole', label: msg('Pole'), group: 'outlets', unit: 'each' },
  { part: 'panel24', label: msg('Panel, 24 ports'), group: 'closet', unit: 'each' },
  { part: 'panel48', label: msg('Panel, 48 ports'), group: 'closet', unit: 'each' },
  { part: 'label', label: msg('Label, four for each cable'), group: 'closet', unit: 'each' },
  { part: 'support', label: msg('Cable support'), group: 'pathways', unit: 'each' },
  { part: 'trayLength', label: msg('Tray, by the 10 ft length'), group: 'pathways', unit: 'each' },
  {
    part: 'conduitLength',
    label: msg('Conduit, by the 10 ft length'),
    group: 'pathways',
    unit: 'each',
  },
  {
    part: 'racewayLength',
    label: msg('Raceway, by the 10 ft length'),
    group: 'pathways',
    unit: 'each',
  },
  { part: 'sleeve', label: msg('Sleeve through a wall'), group: 'penetrations', unit: 'each' },
  { part: 'coreDrill', label: msg('Core drilled hole'), group: 'penetrations', unit: 'each' },
  { part: 'firestop', label: msg('Firestop of a hole'), group: 'penetrations', unit: 'each' },
  { part: 'seal', label: msg('Sealed penetration'), group: 'penetrations', unit: 'each' },
  { part: 'deviceCord', label: msg('Cord at the device'), group: 'cords', unit: 'each' },
  { part: 'closetCord', label: msg('Cord at the closet'), group: 'cords', unit: 'each' },
];

const LABOUR: readonly { part: keyof LabourMinutes; label: Message }[] = [
  { part: 'tile', label: msg('Drops over lay-in ceilings') },
  { part: 'open', label: msg('Drops under open structure') },
  { part: 'hard', label: msg('Drops along closed ceilings') },
  { part: 'job', label: msg('Set up, test and hand over') },
];

/**
 * The price of a job from its quantities and the plan's price book.
 *
 * Each line is its quantity times its price, rounded to cents; hours are rounded to hundredths first, so that the
 * printed quantity gives the printed line. The mark-up is on material and labour together, the tax on all of it with
 * the mark-up; each is rounded once, and the total is the sum to the cent. Lines of nothing are left out.
 */
export function priceOf(plan: Plan, runs: readonly Run[], quantities: Quantities): Price {
  const book = prices(plan);
  const material = MATERIAL.map((row) => line(row, quantities[row.part], book[row.part]));
  const minutes = labourMinutes(plan, runs);
  const labour = LABOUR.map((row) =>
    line({ ...row, group: 'labour', unit: 'h' }, inHours(minutes[row.part]), book.labourHour),
  );
  return { ...summed(material, labour, book), currency: book.currency };
}

const inHours = (minutes: number): number => Math.round((minutes * 100) / 60) / 100;

function line(
  row: { part: string; label: Message; group: Group; unit: string },
  quantity: number,
  unitCents: number,
): PriceLine {
  return {
    part: row.part,
    label: row.label,
    group: row.group,
    quantity,
    unit: row.unit,
    unitCents,
    totalCents: toCents(quantity * unitCents),
  };
}

function summed(material: readonly PriceLine[], labour: readonly PriceLine[], book: Prices) {
  const cents = (lines: readonly PriceLine[]) => lines.reduce((sum, l) => sum + l.totalCents, 0);
  const materialCents = cents(material);
  const labourCents = cents(labour);
  const work = materialCents + labourCents;
  const markupCents = toCents((work * book.markupPercent) / 100);
  const taxCents = toCents(((work + markupCents) * book.taxPercent) / 100);
  return {
    lines: [...material, ...labour].filter((l) => l.quantity > 0),
    materialCents,
    labourCents,
    markupCents,
    taxCents,
    totalCents: work + markupCents + taxCents,
    // Through hundredths, so that the sum of 0.1 and 0.2 reads 0.3.
    hours: labour.reduce((sum, l) => sum + Math.round(l.quantity * 100), 0) / 100,
  };
}
