import { FAR, FOOT, formatLength } from '../../base/units.ts';
import { closetSymbol, powerSymbol } from '../../drawing/symbols.ts';
import { distance } from '../../geometry/nearest.ts';
import { doubleArea } from '../../geometry/polygon.ts';
import type { Wall } from '../../plan/plan.ts';
import { formatCount, t } from '../../text/index.ts';
import { chainLength } from '../contents/rows.ts';
import { useActions, useSession, useShownPlan, useUnits } from '../context.tsx';
import { CheckField, Segments, SelectField } from '../controls/choices.tsx';
import { LengthField, OptionalLengthField, TextField, WholeField } from '../controls/fields.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { MarksPicture } from '../controls/marks.tsx';
import { AreaTag, Button, Section } from '../controls/parts.tsx';
import { ScaleWords } from '../shelf/base.tsx';
import { AREAS, CEILINGS, CONSTRUCTIONS, PATHWAYS, TOPS } from './choices.ts';
import { DeleteButton, PlaceFields, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';

/** A floor area in the job's units, from twice the area in mm². */
export function formatArea(doubleMm: number, units: 'ft' | 'm'): string {
  const mm = Math.abs(doubleMm) / 2;
  return units === 'ft'
    ? t('area.ft', { area: formatCount(mm / (FOOT * FOOT)) })
    : t('area.m', { area: (mm / 1e6).toFixed(1) });
}

export function ClosetCard({ id }: { id: string }) {
  const closet = useShownPlan().tables.closets.get(id)!;
  const edit = useEdit('closets', id);
  const runs = useSession((s) => s.survey?.runs.filter((run) => run.closet === id).length ?? 0);
  return (
    <>
      <CardHead
        picture={<MarksPicture marks={closetSymbol()} scale={5.2} />}
        title={closet.name}
        below={t.count('closet.runs', runs)}
      />
      <Section title={t('card.closet')}>
        <TextField
          label={t('field.name')}
          value={closet.name}
          onCommit={(name) => edit({ name })}
        />
        <LengthField
          label={t('field.termination-height')}
          value={closet.height}
          onCommit={(height) => edit({ height })}
        />
        <WholeField
          label={t('field.ports')}
          value={closet.ports}
          min={1}
          max={10_000}
          onCommit={(ports) => edit({ ports })}
        />
        <p className={runs > closet.ports ? 'field-why' : 'note'}>
          {t('closet.ports-used', { used: runs, ports: closet.ports })}
        </p>
        <PlaceFields of={{ table: 'closets', id }} />
      </Section>
      <DeleteButton refs={[{ table: 'closets', id }]} label={t('card.delete-closet')} />
    </>
  );
}

export function PowerCard({ id }: { id: string }) {
  const power = useShownPlan().tables.powers.get(id)!;
  const edit = useEdit('powers', id);
  return (
    <>
      <CardHead
        picture={<MarksPicture marks={powerSymbol()} scale={6} />}
        title={power.name || t('thing.powers')}
        below={t('power.below')}
      />
      <Section title={t('card.power')}>
        <TextField label={t('field.name')} value={power.name} onCommit={(name) => edit({ name })} />
        <LengthField
          label={t('field.height')}
          value={power.height}
          onCommit={(height) => edit({ height })}
        />
        <PlaceFields of={{ table: 'powers', id }} />
        <p className="note">{t('caution.power')}</p>
      </Section>
      <DeleteButton refs={[{ table: 'powers', id }]} label={t('card.delete-power')} />
    </>
  );
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

export function WallCard({ id }: { id: string }) {
  const units = useUnits();
  const wall = useShownPlan().tables.walls.get(id)!;
  const edit = useEdit('walls', id);
  return (
    <>
      <CardHead
        picture={TOOL_PICTURES.wall}
        title={t(`wall.${wall.construction}`)}
        below={t('wall.below', { length: formatLength(distance(wall.a, wall.b), units) })}
      />
      <Section title={t('card.wall')}>
        <SelectField
          label={t('field.construction')}
          value={wall.construction}
          options={CONSTRUCTIONS()}
          onChoose={(construction) => edit({ construction })}
        />
        <Segments
          label={t('field.top')}
          value={wall.top}
          options={TOPS()}
          onChoose={(top) => edit({ top })}
        />
        <LengthField
          label={t('field.thickness')}
          value={wall.thickness}
          min={1}
          max={2000}
          onCommit={(thickness) => edit({ thickness })}
        />
        <CheckField
          label={t('field.rated')}
          hint={t('field.rated-hint')}
          checked={wall.rated}
          onChange={(rated) => edit({ rated })}
        />
        <CheckField
          label={t('field.exterior')}
          hint={t('field.exterior-hint')}
          checked={wall.exterior}
          onChange={(exterior) => edit({ exterior })}
        />
        {wall.rated ? <p className="note">{t('caution.fire')}</p> : null}
      </Section>
      <WallPlace wall={wall} />
      <DeleteButton refs={[{ table: 'walls', id }]} label={t('card.delete-wall')} />
    </>
  );
}

/** Where a wall's ends are and how long it is, typed; what is joined to it comes along. */
function WallPlace({ wall }: { wall: Wall }) {
  const actions = useActions();
  const ref = { table: 'walls', id: wall.id } as const;
  const length = distance(wall.a, wall.b);
  const put = (index: 0 | 1, to: readonly [number, number]) =>
    actions.run('move-point', { ref, index, to });
  return (
    <Section title={t('wall.place')}>
      <LengthField
        label={t('wall.length')}
        value={Math.round(length)}
        min={1}
        onCommit={(mm) =>
          put(1, [
            Math.round(wall.a[0] + ((wall.b[0] - wall.a[0]) * mm) / length),
            Math.round(wall.a[1] + ((wall.b[1] - wall.a[1]) * mm) / length),
          ])
        }
      />
      {([wall.a, wall.b] as const).map(([x, y], i) => (
        <div className="pair" key={i === 0 ? 'a' : 'b'}>
          <LengthField
            label={t(i === 0 ? 'wall.a-east' : 'wall.b-east')}
            value={x}
            min={-FAR}
            onCommit={(mm) => put(i as 0 | 1, [mm, y])}
          />
          <LengthField
            label={t(i === 0 ? 'wall.a-south' : 'wall.b-south')}
            value={y}
            min={-FAR}
            onCommit={(mm) => put(i as 0 | 1, [x, mm])}
          />
        </div>
      ))}
    </Section>
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

export function PathwayCard({ id }: { id: string }) {
  const units = useUnits();
  const way = useShownPlan().tables.pathways.get(id)!;
  const edit = useEdit('pathways', id);
  const cables = useSession(
    (s) => s.survey?.runs.filter((run) => run.pathways.includes(id)).length ?? 0,
  );
  return (
    <>
      <CardHead
        picture={TOOL_PICTURES[way.kind]}
        title={way.name || t(`pathway.${way.kind}`)}
        below={t('pathway.below', {
          length: formatLength(chainLength(way.points), units),
          cables: t.count('pathway.cables', cables),
        })}
      />
      <Section title={t('card.pathway')}>
        <TextField label={t('field.name')} value={way.name} onCommit={(name) => edit({ name })} />
        <SelectField
          label={t('field.kind')}
          value={way.kind}
          options={PATHWAYS()}
          onChoose={(kind) => edit({ kind })}
        />
        <p className="note">{t(`pathway.${way.kind}.hint`)}</p>
        <OptionalLengthField
          label={t('field.elevation')}
          value={way.elevation}
          follows={t('field.follows-ceiling')}
          onCommit={(elevation) => edit({ elevation })}
        />
        <TextField label={t('field.size')} value={way.size} onCommit={(size) => edit({ size })} />
        <CheckField
          label={t('field.existing')}
          checked={way.existing}
          onChange={(existing) => edit({ existing })}
        />
      </Section>
      <DeleteButton refs={[{ table: 'pathways', id }]} label={t('card.delete-pathway')} />
    </>
  );
}

export function BackgroundCard({ id }: { id: string }) {
  const actions = useActions();
  const background = useShownPlan().tables.backgrounds.get(id)!;
  const edit = useEdit('backgrounds', id);
  return (
    <>
      <CardHead
        picture={TOOL_PICTURES.scale}
        title={background.name || t('thing.backgrounds')}
        below={t('background.below', { width: background.width, height: background.height })}
      />
      <Section title={t('base.scale')}>
        <ScaleWords background={background} />
      </Section>
      <Section title={t('card.background')}>
        <TextField
          label={t('field.name')}
          value={background.name}
          onCommit={(name) => edit({ name })}
        />
        <CheckField
          label={t('base.hide')}
          checked={background.hidden}
          onChange={(hidden) => edit({ hidden })}
        />
        <Button onClick={() => actions.run('turn-background', { background: id })}>
          {t('base.turn')}
        </Button>
        <PlaceFields of={{ table: 'backgrounds', id }} />
      </Section>
      <DeleteButton refs={[{ table: 'backgrounds', id }]} label={t('card.delete-background')} />
    </>
  );
}
