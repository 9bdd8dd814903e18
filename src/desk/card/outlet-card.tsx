import { compareLabels } from '../../base/labels.ts';
import { jackSymbol } from '../../drawing/symbols.ts';
import { areaAt } from '../../plan/areas.ts';
import { entity, type Jack, type Plan } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useActions, useDesk, useKinds, useShownPlan } from '../context.tsx';
import { CheckField, SelectField } from '../controls/choices.tsx';
import { LengthField } from '../controls/fields.tsx';
import { MarksPicture } from '../controls/marks.tsx';
import { AreaTag, Button, Section } from '../controls/parts.tsx';
import { TypedField } from '../controls/typed-field.tsx';
import { nameOf } from '../names.ts';
import { showRefs } from '../show.ts';
import { MOUNTS } from './choices.ts';
import { DeleteButton, PlaceFields, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';
import { Repeat } from './repeat.tsx';
import { RunParts } from './run-card.tsx';

const jacksAt = (plan: Plan, outlet: string): Jack[] =>
  [...plan.tables.jacks.values()]
    .filter((jack) => jack.outlet === outlet)
    .sort((a, b) => compareLabels(a.label, b.label));

export function OutletCard({ id }: { id: string }) {
  const plan = useShownPlan();
  const actions = useActions();
  const outlet = plan.tables.outlets.get(id)!;
  const jacks = jacksAt(plan, id);
  return (
    <>
      <CardHead
        picture={<MarksPicture marks={jackSymbol(jacks.length, 'ink', outlet.mount)} scale={6} />}
        title={t('outlet.title', { labels: jacks.map((jack) => jack.label).join(' ') })}
        below={
          <>
            <AreaTag letter={areaAt(plan, outlet.level, outlet.at)} /> {t(`outlet.${outlet.mount}`)}
          </>
        }
      />
      <RunParts jacks={jacks.map((jack) => jack.id)} />
      <Section title={t('card.outlet')}>
        <OutletFields id={id} />
        <PlaceFields of={{ table: 'outlets', id }} />
      </Section>
      <Section title={t('card.jacks')} aside={jacks.length}>
        {jacks.map((jack) => (
          <JackFields key={jack.id} jack={jack} />
        ))}
        <div className="button-row">
          <Button onClick={() => actions.run('add-jack', { outlet: id })}>{t('jack.add')}</Button>
          <Button onClick={() => actions.run('add-jack', { outlet: id, spare: true })}>
            {t('jack.add-spare')}
          </Button>
        </div>
      </Section>
      <Repeat refs={[{ table: 'outlets', id }]} />
      <DeleteButton refs={[{ table: 'outlets', id }]} label={t('card.delete-outlet')} />
    </>
  );
}

/** Height and mount of an outlet, and whether it follows its device. */
export function OutletFields({ id }: { id: string }) {
  const plan = useShownPlan();
  const edit = useEdit('outlets', id);
  const outlet = plan.tables.outlets.get(id)!;
  return (
    <>
      <LengthField
        label={t('field.outlet-height')}
        value={outlet.height}
        max={entity(plan, 'levels', outlet.level)?.deck ?? 10_000}
        onCommit={(height) => edit({ height })}
      />
      <SelectField
        label={t('field.mount')}
        value={outlet.mount}
        options={MOUNTS()}
        onChoose={(mount) => edit({ mount })}
      />
      {servesDevice(plan, id) ? (
        <CheckField
          label={t('outlet.follows')}
          checked={outlet.placed === 'auto'}
          onChange={(follows) => edit({ placed: follows ? 'auto' : 'hand' })}
        />
      ) : (
        <p className="note">{t('outlet.by-hand')}</p>
      )}
    </>
  );
}

const servesDevice = (plan: Plan, outlet: string): boolean =>
  jacksAt(plan, outlet).some((jack) => jack.device !== null);

export function JackCard({ id }: { id: string }) {
  const plan = useShownPlan();
  const jack = plan.tables.jacks.get(id)!;
  const outlet = plan.tables.outlets.get(jack.outlet)!;
  return (
    <>
      <CardHead
        picture={<MarksPicture marks={jackSymbol(1, 'ink', outlet.mount)} scale={6} />}
        title={t('thing.jack', { label: jack.label })}
        below={
          <>
            <AreaTag letter={areaAt(plan, outlet.level, outlet.at)} /> {t(`outlet.${outlet.mount}`)}
          </>
        }
      />
      <RunParts jacks={[id]} />
      <Section title={t('card.jack')}>
        <JackFields jack={jack} />
      </Section>
      <Section title={t('card.outlet')}>
        <OutletFields id={jack.outlet} />
      </Section>
      <DeleteButton refs={[{ table: 'jacks', id }]} label={t('card.delete-jack')} />
    </>
  );
}

const LABEL = /^[A-Z][0-9]{1,4}(-[0-9]{1,2})?$/;

/** Label, device and closet of a jack. */
function JackFields({ jack }: { jack: Jack }) {
  const { session } = useDesk();
  const plan = useShownPlan();
  const kinds = useKinds();
  const edit = useEdit('jacks', jack.id);
  const taken = (label: string) =>
    [...plan.tables.jacks.values()].some((other) => other.id !== jack.id && other.label === label);
  const device = jack.device;
  const closets = [...plan.tables.closets.values()];
  return (
    <div className="jack-fields">
      <TypedField
        label={t('field.label')}
        value={jack.label}
        show={(label) => label}
        read={(text) => {
          const label = text.trim().toUpperCase();
          if (!LABEL.test(label)) return { why: t('field.label.wrong') };
          return taken(label) ? { why: t('field.label.taken', { label }) } : { value: label };
        }}
        onCommit={(label) => edit({ label })}
      />
      <div className="jack-serves">
        {device === null ? (
          <span className="note">{t('jack.spare')}</span>
        ) : (
          <Button
            look="quiet"
            onClick={() => showRefs(session, [{ table: 'devices', id: device }])}
          >
            {t('jack.serves', { device: nameOf(plan, kinds, { table: 'devices', id: device }) })}
          </Button>
        )}
      </div>
      {closets.length > 1 ? (
        <SelectField
          label={t('field.closet')}
          value={jack.closet ?? ''}
          options={[
            { value: '', label: t('jack.nearest-closet') },
            ...closets.map((closet) => ({ value: closet.id, label: closet.name })),
          ]}
          onChoose={(closet) => edit({ closet: closet === '' ? null : closet })}
        />
      ) : null}
    </div>
  );
}
