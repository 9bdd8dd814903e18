import { FOOT } from '../../base/units.ts';
import { doubleArea } from '../../geometry/polygon.ts';
import type { Zone } from '../../plan/plan.ts';
import { seeming } from '../../plan/unfit-rooms.ts';
import { formatCount, t } from '../../text/index.ts';
import { useShownPlan, useUnits } from '../context.tsx';
import { SelectField } from '../controls/choices.tsx';
import { LengthField, OptionalLengthField, TextField } from '../controls/fields.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { AreaTag, Section } from '../controls/parts.tsx';
import { AREAS, CEILINGS } from './choices.ts';
import { DeleteButton, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';

/** A floor area in the job's units, from twice the area in mm². */
export function formatArea(doubleMm: number, units: 'ft' | 'm'): string {
  const mm = Math.abs(doubleMm) / 2;
  return units === 'ft'
    ? t('area.ft', { area: formatCount(mm / (FOOT * FOOT)) })
    : t('area.m', { area: (mm / 1e6).toFixed(1) });
}

export function ZoneCard({ id }: { id: string }) {
  const units = useUnits();
  const zone = useShownPlan().tables.zones.get(id)!;
  const edit = useEdit('zones', id);
  const { ceiling } = zone;
  return (
    <>
      <CardHead
        picture={<AreaTag letter={zone.area} large />}
        title={zone.name || t('thing.zones')}
        below={t('room.below', {
          area: zone.area,
          size: formatArea(doubleArea(zone.outline), units),
        })}
      />
      <Section title={t('card.room')}>
        <TextField label={t('field.name')} value={zone.name} onCommit={(name) => edit({ name })} />
        <SelectField
          label={t('field.area')}
          value={zone.area}
          options={AREAS()}
          onChoose={(area) => edit({ area })}
        />
        <ClosetMay zone={zone} />
      </Section>
      <Section title={t('card.ceiling')}>
        <SelectField
          label={t('field.ceiling')}
          value={ceiling.kind}
          options={CEILINGS()}
          onChoose={(kind) => edit({ ceiling: { ...ceiling, kind } })}
        />
        <p className="note">{t(`ceiling.${ceiling.kind}.hint`)}</p>
        <LengthField
          label={t('field.ceiling-height')}
          value={ceiling.height}
          min={1500}
          onCommit={(height) => edit({ ceiling: { ...ceiling, height } })}
        />
        <OptionalLengthField
          label={t('field.cable-elevation')}
          value={zone.cableElevation}
          follows={t('field.follows-ceiling')}
          onCommit={(cableElevation) => edit({ cableElevation })}
        />
      </Section>
      <DeleteButton refs={[{ table: 'zones', id }]} label={t('card.delete-room')} />
    </>
  );
}

/** Whether a network closet may stand in a room: as its name and its walls say, or as somebody does. */
function ClosetMay({ zone }: { zone: Zone }) {
  const plan = useShownPlan();
  const edit = useEdit('zones', zone.id);
  return (
    <SelectField
      label={t('field.closet-may')}
      value={String(zone.closetMay)}
      options={[
        { value: 'null', label: t(`closet-may.${seeming(plan, zone) ?? 'fit'}`) },
        { value: 'true', label: t('closet-may.yes') },
        { value: 'false', label: t('closet-may.no') },
      ]}
      onChoose={(value) => edit({ closetMay: value === 'null' ? null : value === 'true' })}
    />
  );
}

export function KeepoutCard({ id }: { id: string }) {
  const keepout = useShownPlan().tables.keepouts.get(id)!;
  const edit = useEdit('keepouts', id);
  return (
    <>
      <CardHead
        picture={TOOL_PICTURES.keepout}
        title={keepout.name || t('thing.keepouts')}
        below={t('keepout.below')}
      />
      <Section title={t('card.keepout')}>
        <TextField
          label={t('field.name')}
          value={keepout.name}
          onCommit={(name) => edit({ name })}
        />
        <LengthField
          label={t('field.clearance')}
          value={keepout.clearance}
          onCommit={(clearance) => edit({ clearance })}
        />
      </Section>
      <DeleteButton refs={[{ table: 'keepouts', id }]} label={t('card.delete-keepout')} />
    </>
  );
}
