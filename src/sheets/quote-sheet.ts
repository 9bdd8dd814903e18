import { type Message, msg } from '../base/message.ts';
import { formatMoney, formatTotal } from '../base/units.ts';
import { job, prices } from '../plan/plan.ts';
import { priceDoubts } from '../results/price-doubts.ts';
import { PRICE_GROUPS } from '../results/price-groups.ts';
import type { PriceLine } from '../results/types.ts';
import { say } from './frame.ts';
import type { Sheet, SheetContext } from './sheet.ts';
import { type Column, type Row, tablePages } from './table.ts';

/** Materials and price: what is bought and done, group by group, and what it comes to. */
export const quoteSheet: Sheet = {
  id: 'quote',
  title: msg('Materials and price'),
  pages: (context) => {
    const { price } = context.survey;
    if (price.lines.length === 0) return [];
    return tablePages(context, {
      title: say(context, msg('Materials and price')),
      landscape: false,
      columns: columns(context),
      rows: groups(context),
      totals: totals(context),
      notes: terms(context),
    });
  },
};

const columns = (context: SheetContext): Column[] => {
  const t = (words: string): string => say(context, msg(words));
  const number = { align: 'right', wraps: false } as const;
  return [
    { title: t('Item'), align: 'left', width: null, wraps: true },
    { ...number, title: t('Quantity'), width: 20 },
    { title: t('Unit'), align: 'left', width: 14, wraps: false },
    { ...number, title: t('Each'), width: 25 },
    { ...number, title: t('Amount'), width: 28 },
  ];
};

const money = (context: SheetContext, cents: number): string =>
  formatMoney(cents, context.survey.price.currency);

/** Lines under the heading of their group, each group with its sum. */
function groups(context: SheetContext): Row[] {
  const { lines } = context.survey.price;
  return (Object.keys(PRICE_GROUPS) as PriceLine['group'][]).flatMap((group): Row[] => {
    const own = lines.filter((line) => line.group === group);
    if (own.length === 0) return [];
    const sum = own.reduce((total, line) => total + line.totalCents, 0);
    return [
      {
        look: 'group',
        cells: [say(context, PRICE_GROUPS[group]), '', '', '', money(context, sum)],
      },
      ...own.map((line): Row => ({ look: 'plain', cells: cells(context, line) })),
    ];
  });
}

const cells = (context: SheetContext, line: PriceLine): string[] => [
  say(context, line.label),
  line.unit === 'h' ? line.quantity.toFixed(2) : String(line.quantity),
  line.unit,
  money(context, line.unitCents),
  money(context, line.totalCents),
];

function totals(context: SheetContext): Row[] {
  const { price } = context.survey;
  const { markupPercent, taxPercent } = prices(context.plan);
  const row = (words: Message, cents: number, look: Row['look'] = 'total'): Row => ({
    look,
    cells: [say(context, words), '', '', '', money(context, cents)],
  });
  return [
    row(msg('Material'), price.materialCents),
    row(msg('Labour, {hours} h', { hours: price.hours }), price.labourCents),
    ...(price.markupCents === 0
      ? []
      : [row(msg('Mark-up, {percent} %', { percent: markupPercent }), price.markupCents)]),
    ...(price.taxCents === 0
      ? []
      : [row(msg('Tax, {percent} %', { percent: taxPercent }), price.taxCents)]),
    row(msg('Total'), price.totalCents, 'grand'),
  ];
}

/** What speaks against the price, and what is in it and what is not: usual words, for somebody to check before the price is sent. */
function terms(context: SheetContext): string[] {
  const { totals: sum } = context.survey;
  const { units } = job(context.plan);
  const doubts = priceDoubts(context.plan, context.survey);
  return [
    ...doubts,
    msg('Cables: {jacks}, {cable} installed. Boxes of cable: {boxes}.', {
      jacks: sum.jacks,
      cable: formatTotal(sum.cable, units),
      boxes: sum.boxes,
    }),
    msg(
      'Included (default words, check before sending): cable from each jack to the closet, jacks, plates and panels, labels at both ends, a test of every link, a record drawing.',
    ),
    msg(
      'Not included (default words, check before sending): power outlets and circuits, network switches and access points, patching and painting, asbestos and lead surveys, permits, lifts, work outside usual hours.',
    ),
    ...(doubts.length > 0
      ? []
      : [msg('Prices are those of this job, as typed in; they hold for nothing else.')]),
  ].map((message) => say(context, message));
}
