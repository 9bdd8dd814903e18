import { t } from '../../text/index.ts';
import { useActions, useShownPlan } from '../context.tsx';
import { CheckField } from '../controls/choices.tsx';
import { TextField } from '../controls/fields.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { Button, Section } from '../controls/parts.tsx';
import { ScaleWords } from '../shelf/base.tsx';
import { DeleteButton, PlaceFields, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';

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
