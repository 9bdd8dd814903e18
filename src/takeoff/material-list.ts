import { PRICE_GROUPS } from '../results/price-groups.ts';
import type { Price } from '../results/types.ts';
import { type Cell, toCsv } from './csv.ts';

/** The material list with its prices and sums as CSV; money in whole units of the currency with two decimals. */
export function materialListCsv(price: Price): string {
  const header: Cell[] = [
    ...['Group', 'Item', 'Quantity', 'Unit'],
    `Each (${price.currency})`,
    `Total (${price.currency})`,
  ];
  const body = price.lines.map((line): Cell[] => [
    PRICE_GROUPS[line.group].text,
    line.label.text,
    line.quantity,
    line.unit,
    money(line.unitCents),
    money(line.totalCents),
  ]);
  return toCsv([header, ...body, ...sums(price)]);
}

function sums(price: Price): Cell[][] {
  const rows: [string, number][] = [
    ['Material', price.materialCents],
    ['Labour', price.labourCents],
    ['Mark-up', price.markupCents],
    ['Tax', price.taxCents],
    ['Total', price.totalCents],
  ];
  return rows.map(([item, cents]) => ['Sum', item, null, null, null, money(cents)]);
}

const money = (cents: number): string => (cents / 100).toFixed(2);
