import { renderMessage } from '../../base/message.ts';
import { formatLength, type Units } from '../../base/units.ts';
import { distance } from '../../geometry/nearest.ts';
import type { DeviceKind } from '../../kinds/kind.ts';
import { DEVICE_CORD, SHORT_CORD } from '../../kinds/kind.ts';
import { areaAt } from '../../plan/areas.ts';
import { type Device, entity, onLevel, type Plan, settings } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { labelsOf } from '../contents/rows.ts';
import { useActions, useKinds, useShownPlan, useUnits } from '../context.tsx';
import { SelectField } from '../controls/choices.tsx';
import { LengthField, TextField } from '../controls/fields.tsx';
import { KindPicture } from '../controls/marks.tsx';
import { AreaTag, Button, Section } from '../controls/parts.tsx';
import { jackIdsOf, kindName, nameOf } from '../names.ts';
import { DeleteButton, PlaceFields, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';
import { OutletFields } from './outlet-card.tsx';
import { Repeat } from './repeat.tsx';
import { RunParts } from './run-card.tsx';

export function DeviceCard({ id }: { id: string }) {
  const plan = useShownPlan();
  const kinds = useKinds();
  const device = plan.tables.devices.get(id)!;
  const kind = kinds.get(device.kind);
  const labels = labelsOf(plan, { table: 'devices', id });
  const jacks = jackIdsOf(plan, { table: 'devices', id });
  const name = nameOf(plan, kinds, { table: 'devices', id });
  return (
    <>
      <CardHead
        picture={kind ? <KindPicture symbol={kind.symbol} code={kind.code} scale={5.2} /> : null}
        title={labels.length > 0 ? `${name} ${labels.join(' ')}` : name}
        below={<Where plan={plan} device={device} kindName={kindName(plan, kinds, device.kind)} />}
      />
      <DeviceFields device={device} />
      {kind ? <JackPart device={device} kind={kind} jacks={jacks} /> : null}
      <RunParts jacks={jacks} />
      <PowerPart plan={plan} device={device} kind={kind} />
      <Repeat refs={[{ table: 'devices', id }]} />
      <DeleteButton refs={[{ table: 'devices', id }]} label={t('card.delete-device')} />
    </>
  );
}

function Where({ plan, device, kindName }: { plan: Plan; device: Device; kindName: string }) {
  const area = areaAt(plan, device.level, device.at);
  return (
    <>
      <AreaTag letter={area} /> {device.name === '' ? t('device.in-area', { area }) : kindName}
    </>
  );
}

function DeviceFields({ device }: { device: Device }) {
  const kinds = useKinds();
  const units = useUnits();
  const actions = useActions();
  const edit = useEdit('devices', device.id);
  return (
    <Section title={t('card.device')}>
      <SelectField
        label={t('field.kind')}
        value={device.kind}
        options={[...kinds.values()].map((kind) => ({
          value: kind.id,
          label: renderMessage(kind.label, units),
        }))}
        onChoose={(kind) =>
          actions.run('replace-kind', { refs: [{ table: 'devices', id: device.id }], kind })
        }
      />
      <TextField label={t('field.name')} value={device.name} onCommit={(name) => edit({ name })} />
      <LengthField
        label={t('field.port-height')}
        value={device.height}
        onCommit={(height) => edit({ height })}
      />
      <CordField device={device} />
      <PlaceFields of={{ table: 'devices', id: device.id }} />
    </Section>
  );
}

/** The cord: the two lengths that the trade supplies at a press, any other typed. */
function CordField({ device }: { device: Device }) {
  const units = useUnits();
  const edit = useEdit('devices', device.id);
  return (
    <div className="field-with">
      <LengthField
        label={t('field.cord')}
        value={device.cord}
        onCommit={(cord) => edit({ cord })}
      />
      <fieldset className="quick">
        <legend className="unseen">{t('field.cord-usual')}</legend>
        {[DEVICE_CORD, SHORT_CORD].map((cord) => (
          <button
            key={cord}
            type="button"
            aria-pressed={device.cord === cord}
            onClick={() => edit({ cord })}
          >
            {formatLength(cord, units)}
          </button>
        ))}
      </fieldset>
    </div>
  );
}

/** The jack in its service: its own, or that of another. */
function JackPart({
  device,
  kind,
  jacks,
}: {
  device: Device;
  kind: DeviceKind;
  jacks: readonly string[];
}) {
  const plan = useShownPlan();
  const units = useUnits();
  const outlets = [...new Set(jacks.map((jack) => plan.tables.jacks.get(jack)!.outlet))];
  return (
    <Section title={t('card.jack')}>
      <Sharing plan={plan} device={device} kind={kind} />
      {outlets.map((id) => (
        <div key={id}>
          <OutletFields id={id} />
          {device.host === null ? (
            <Reach plan={plan} device={device} outlet={id} units={units} />
          ) : null}
        </div>
      ))}
      <p className="note">{t('device.network', { network: t(`network.${kind.network}`) })}</p>
    </Section>
  );
}

function Reach({
  plan,
  device,
  outlet: id,
  units,
}: {
  plan: Plan;
  device: Device;
  outlet: string;
  units: Units;
}) {
  const outlet = plan.tables.outlets.get(id)!;
  const way = Math.hypot(distance(outlet.at, device.at), outlet.height - device.height);
  const key = way <= device.cord ? 'device.reach' : 'device.reach-short';
  return (
    <p className={`note note-held ${way <= device.cord ? '' : 'note-off'}`}>
      {t(key, { way: formatLength(way, units), cord: formatLength(device.cord, units) })}
    </p>
  );
}

function Sharing({ plan, device, kind }: { plan: Plan; device: Device; kind: DeviceKind }) {
  const actions = useActions();
  const kinds = useKinds();
  const host = device.host === null ? undefined : entity(plan, 'devices', device.host);
  const could = onLevel(plan, 'devices', device.level).filter(
    (other) =>
      other.id !== device.id && other.host === null && kind.sharesWith.includes(other.kind),
  );
  const label = (other: Device) => {
    const ref = { table: 'devices', id: other.id } as const;
    return `${nameOf(plan, kinds, ref)} ${labelsOf(plan, ref).join(' ')}`.trim();
  };
  if (host)
    return (
      <>
        <p>{t('device.shares', { host: label(host) })}</p>
        <Button onClick={() => actions.run('give-jack', { device: device.id })}>
          {t('device.own-jack')}
        </Button>
      </>
    );
  if (could.length === 0) return null;
  return (
    <SelectField
      label={t('device.share-with')}
      value=""
      options={[
        { value: '', label: t('device.share-none') },
        ...could.map((other) => ({ value: other.id, label: label(other) })),
      ]}
      onChoose={(other) => {
        if (other !== '') actions.run('share-jack', { device: device.id, host: other });
      }}
    />
  );
}

/** How far the next power outlet is. */
function PowerPart({
  plan,
  device,
  kind,
}: {
  plan: Plan;
  device: Device;
  kind: DeviceKind | undefined;
}) {
  const units = useUnits();
  if (!kind) return null;
  return (
    <Section title={t('card.power')}>
      <p className="note note-held">{powerWords(plan, device, kind, units)}</p>
    </Section>
  );
}

/** What is said of a device's power: over the data cable, a power outlet near by, or none within reach. */
export function powerWords(plan: Plan, device: Device, kind: DeviceKind, units: Units): string {
  if (kind.power === 'data cable') return t('power.over-cable');
  const near = onLevel(plan, 'powers', device.level)
    .map((power) => distance(power.at, device.at))
    .reduce((least, d) => Math.min(least, d), Number.POSITIVE_INFINITY);
  const reach = formatLength(settings(plan).powerReach, units);
  if (near <= settings(plan).powerReach)
    return t('power.near', { distance: formatLength(near, units) });
  return Number.isFinite(near)
    ? t('power.far', { distance: formatLength(near, units), reach })
    : t('power.none', { reach });
}
