import { renderMessage } from '../../base/message.ts';
import { formatMoney } from '../../base/units.ts';
import { type Prices, prices } from '../../plan/plan.ts';
import { priceDoubts } from '../../results/price-doubts.ts';
import { PRICE_GROUPS } from '../../results/price-groups.ts';
import type { BoxPlan, Price, PriceLine, Survey } from '../../results/types.ts';
import { formatCount, formatHours, t } from '../../text/index.ts';
import { isUnplaced } from '../blank.ts';
import { useEdit } from '../card/common.tsx';
import { usePlan, useRestingSurvey, useUnits } from '../context.tsx';
import { MoneyField, TextField, WholeField } from '../controls/fields.tsx';
import { Fold, Section } from '../controls/parts.tsx';
import { boxWords, priceGroups } from '../price-groups.ts';

export function PriceShelf() {
  const survey = useRestingSurvey();
  const unplaced = isUnplaced(usePlan());
  return (
    <>
      {survey?.price.totalCents === 0 && unplaced ? (
        <div className="said">
          <p>
            <strong>{t('price.none')}</strong> {t('price.none-words')}
          </p>
        </div>
      ) : survey ? (
        <>
          <Sums survey={survey} />
          <Lines price={survey.price} />
          <Boxes plan={survey.boxPlan} bought={survey.totals.boxes} />
        </>
      ) : (
        <p className="note">{t('price.waiting')}</p>
      )}
      <Book />
    </>
  );
}

function Sums({ survey }: { survey: Survey }) {
  const { price } = survey;
  const units = useUnits();
  const doubts = priceDoubts(usePlan(), survey);
  const show = (cents: number) => formatMoney(cents, price.currency);
  const sums = [
    [t('price.material'), price.materialCents],
    [t('price.labour', { hours: formatHours(price.hours) }), price.labourCents],
    [t('price.markup'), price.markupCents],
    [t('price.tax'), price.taxCents],
  ] as const;
  return (
    <Section title={t('price.quote')}>
      <dl className="figures">
        {sums.map(([label, cents]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{show(cents)}</dd>
          </div>
        ))}
        <div className="figures-total">
          <dt>{t('price.total')}</dt>
          <dd>{show(price.totalCents)}</dd>
        </div>
      </dl>
      {doubts.map((doubt) => (
        <p key={doubt.text} className="said said-todo">
          {renderMessage(doubt, units)}
        </p>
      ))}
    </Section>
  );
}

function Lines({ price }: { price: Price }) {
  const show = (cents: number) => formatMoney(cents, price.currency);
  return (
    <Section title={t('price.lines')}>
      <table className="price-lines">
        <caption className="unseen">{t('price.lines')}</caption>
        {priceGroups(price.lines).map((group) => (
          <tbody key={group.group}>
            <tr className="price-group">
              <th scope="rowgroup">{PRICE_GROUPS[group.group].text}</th>
              <td>{show(group.totalCents)}</td>
            </tr>
            {group.lines.map((line) => (
              <LineRow key={line.part} line={line} show={show} />
            ))}
          </tbody>
        ))}
      </table>
    </Section>
  );
}

function LineRow({ line, show }: { line: PriceLine; show(cents: number): string }) {
  const units = useUnits();
  const quantity = line.unit === 'h' ? formatHours(line.quantity) : formatCount(line.quantity);
  return (
    <tr>
      <th scope="row">
        {renderMessage(line.label, units)}
        <small>{t('price.each', { quantity, price: show(line.unitCents) })}</small>
      </th>
      <td>{show(line.totalCents)}</td>
    </tr>
  );
}

function Boxes({ plan, bought }: { plan: BoxPlan; bought: number }) {
  const rows = [
    [t('boxes.whole'), bought],
    [t('boxes.length'), plan.byLength],
    [t('boxes.average'), plan.byAverage],
    [t('boxes.bound'), plan.bound],
  ] as const;
  return (
    <Section title={t('boxes.title')}>
      <dl className="figures">
        {rows.map(([label, count]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{count}</dd>
          </div>
        ))}
      </dl>
      <p className="note">{boxWords(plan)}</p>
    </Section>
  );
}

const MATERIAL = [
  'cableBox',
  'jack',
  'plate',
  'bracket',
  'ceilingBox',
  'floorBox',
  'pole',
  'panel24',
  'panel48',
  'support',
  'trayLength',
  'conduitLength',
  'racewayLength',
  'deviceCord',
  'closetCord',
  'label',
  'sleeve',
  'coreDrill',
  'firestop',
  'seal',
] as const satisfies readonly (keyof Prices)[];

const MINUTES = [
  'minutesTile',
  'minutesOpen',
  'minutesHard',
  'minutesJob',
] as const satisfies readonly (keyof Prices)[];

function Book() {
  const book = prices(usePlan());
  const edit = useEdit('prices', 'prices');
  const money = (name: (typeof MATERIAL)[number] | 'labourHour') => (
    <MoneyField
      key={name}
      label={t(`prices.${name}`)}
      value={book[name]}
      currency={book.currency}
      onCommit={(cents) => edit({ [name]: cents })}
    />
  );
  const percent = (name: 'markupPercent' | 'taxPercent' | 'furtherCablePercent', max: number) => (
    <WholeField
      key={name}
      label={t(`prices.${name}`)}
      value={book[name]}
      sign="%"
      max={max}
      onCommit={(value) => edit({ [name]: value })}
    />
  );
  return (
    <>
      <Section title={t('price.book')}>
        <p className="note">{t('price.book-hint')}</p>
        {money('labourHour')}
        {percent('markupPercent', 1000)}
        {percent('taxPercent', 100)}
        <TextField
          label={t('prices.currency')}
          value={book.currency}
          onCommit={(currency) => edit({ currency })}
        />
      </Section>
      <Fold title={t('price.materials')}>{MATERIAL.map(money)}</Fold>
      <Fold title={t('price.minutes')}>
        {MINUTES.map((name) => (
          <WholeField
            key={name}
            label={t(`prices.${name}`)}
            value={book[name]}
            sign="min"
            max={100_000}
            onCommit={(value) => edit({ [name]: value })}
          />
        ))}
        {percent('furtherCablePercent', 100)}
      </Fold>
    </>
  );
}
