import { formatLength } from '../../base/units.ts';
import { t } from '../../text/index.ts';
import { chainLength } from '../contents/rows.ts';
import { useSession, useShownPlan, useUnits } from '../context.tsx';
import { CheckField, SelectField } from '../controls/choices.tsx';
import { OptionalLengthField, TextField } from '../controls/fields.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { Section } from '../controls/parts.tsx';
import { PATHWAYS } from './choices.ts';
import { DeleteButton, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';

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
