import { closetSymbol, powerSymbol } from '../../drawing/symbols.ts';
import { t } from '../../text/index.ts';
import { useSession, useShownPlan } from '../context.tsx';
import { LengthField, TextField, WholeField } from '../controls/fields.tsx';
import { MarksPicture } from '../controls/marks.tsx';
import { Section } from '../controls/parts.tsx';
import { DeleteButton, PlaceFields, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';

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
