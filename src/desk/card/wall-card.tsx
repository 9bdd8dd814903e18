import { FAR, formatLength } from '../../base/units.ts';
import { distance } from '../../geometry/nearest.ts';
import type { Wall } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useActions, useShownPlan, useUnits } from '../context.tsx';
import { CheckField, Segments, SelectField } from '../controls/choices.tsx';
import { LengthField } from '../controls/fields.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { Section } from '../controls/parts.tsx';
import { CONSTRUCTIONS, TOPS } from './choices.ts';
import { DeleteButton, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';

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
