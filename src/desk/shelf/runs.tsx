import { groupBy } from '../../base/group.ts';
import { formatLength, formatTotal, INCH, parseLength, type Units } from '../../base/units.ts';
import { type Settings, settings } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { PATHWAYS } from '../card/choices.ts';
import { useEdit } from '../card/common.tsx';
import { usePlan, useSession, useUnits } from '../context.tsx';
import { LengthField, WholeField } from '../controls/fields.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { Fold, Section, ToolRow } from '../controls/parts.tsx';
import { TypedField } from '../controls/typed-field.tsx';
import { TOOL } from '../tool-ids.ts';
import { CeilingView } from './ceiling-view.tsx';
import { KindAllowances } from './kind-allowances.tsx';
import { Pins, Risers } from './passes.tsx';
import { SecondCloset } from './second-closet.tsx';

type LengthName = {
  [F in keyof Settings]: Settings[F] extends number ? F : never;
}[keyof Settings];

const ALLOWANCES = ['closetLoop', 'outletSlack', 'fieldLoop'] as const;
const FACTORS = ['tileFactor', 'openFactor', 'hardFactor', 'pathwayFactor'] as const;
const PRICES = ['framedPrice', 'masonryPrice', 'ratedPrice', 'bendPrice'] as const;
const HEIGHTS = ['tileClearance', 'openBelowDeck', 'hardBelowCeiling'] as const;
const LIMITS = ['linkLimit', 'channelLimit', 'cordCloset', 'powerReach'] as const;

export function RunsShelf() {
  const pathways = usePlan().tables.pathways;
  const counts = groupBy(pathways.values(), (way) => way.kind);
  return (
    <>
      <Section title={t('runs.pathways')}>
        {PATHWAYS().map(({ value, label }) => (
          <ToolRow
            key={value}
            tool={TOOL.pathway}
            option={value}
            picture={TOOL_PICTURES[value]}
            name={label}
            hint={t(`pathway.${value}.hint`)}
            count={counts.get(value)?.length ?? 0}
          />
        ))}
      </Section>
      <Risers />
      <Pins />
      <CeilingView />
      <Section title={t('runs.allowances')}>
        {ALLOWANCES.map((name) => (
          <SettingLength key={name} name={name} />
        ))}
        <SettingPercent name="wastePercent" max={100} />
        <SettingPercent name="nearPercent" max={100} />
      </Section>
      <KindAllowances />
      <Average />
      <SecondCloset />
      <Fold title={t('runs.how')}>
        <p className="note">{t('runs.how-hint')}</p>
        {FACTORS.map((name) => (
          <SettingPercent key={name} name={name} max={1000} />
        ))}
        <p className="note">{t('runs.prices-hint')}</p>
        {PRICES.map((name) => (
          <SettingLength key={name} name={name} />
        ))}
        <p className="note">{t('runs.heights-hint')}</p>
        {HEIGHTS.map((name) => (
          <SettingLength key={name} name={name} />
        ))}
      </Fold>
      <Fold title={t('runs.limits')}>
        <p className="note">{t('runs.limits-hint')}</p>
        {LIMITS.map((name) => (
          <SettingLength key={name} name={name} />
        ))}
        <SettingLength name="orderStep" min={1} exact />
        <SettingLength name="boxLength" min={1} />
        <CableDiameter />
      </Fold>
    </>
  );
}

function useSetting(name: LengthName) {
  const edit = useEdit('settings', 'settings');
  const value = settings(usePlan())[name];
  return {
    label: t(`setting.${name}`),
    value,
    onCommit: (next: number) => edit({ [name]: next }),
  };
}

const SettingLength = ({
  name,
  ...bounds
}: {
  name: LengthName;
  min?: number;
  exact?: boolean;
}) => <LengthField {...useSetting(name)} {...bounds} />;

const SettingPercent = ({ name, max }: { name: LengthName; max: number }) => (
  <WholeField {...useSetting(name)} sign="%" max={max} />
);

/** A diameter is finer than the eighths and centimetres of lengths: hundredths of an inch, or tenths of a mm. */
function CableDiameter() {
  const units = useUnits();
  const feet = units === 'ft';
  return (
    <TypedField
      {...useSetting('cableDiameter')}
      show={(mm) => (feet ? `${(mm / INCH).toFixed(2)}"` : `${Number(mm.toFixed(2))} mm`)}
      read={(text) => {
        const mm = parseLength(text, units);
        const fits = mm !== null && mm >= 1 && mm <= 50;
        return fits ? { value: mm } : { why: t('setting.cableDiameter.wrong') };
      }}
    />
  );
}

/** What the averaging method of the trade says, beside the exact sum; dashes until the first survey is there. */
function Average() {
  const survey = useSession((s) => s.survey);
  const units = useUnits();
  if (survey && !survey.averaging) return null;
  const figure = (format: (mm: number, units: Units) => string, mm?: number) =>
    mm === undefined ? '–' : format(mm, units);
  const { averaging, totals } = survey ?? {};
  const rows = [
    [t('runs.shortest'), figure(formatLength, averaging?.shortest)],
    [t('runs.longest'), figure(formatLength, averaging?.longest)],
    [t('runs.average'), figure(formatTotal, averaging?.total)],
    [t('runs.exact'), figure(formatTotal, totals?.cable)],
    [t('runs.order'), figure(formatTotal, totals?.order)],
  ] as const;
  const count = survey ? t.count('runs.count', survey.runs.length) : '–';
  return (
    <Section title={t('runs.totals')} aside={count}>
      <dl className="figures">
        {rows.map(([label, shown]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{shown}</dd>
          </div>
        ))}
      </dl>
      <p className="note">{t('runs.average-hint')}</p>
    </Section>
  );
}
