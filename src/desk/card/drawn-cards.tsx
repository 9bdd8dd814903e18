import { formatLength } from '../../base/units.ts';
import { distance } from '../../geometry/nearest.ts';
import { t } from '../../text/index.ts';
import { useShownPlan, useUnits } from '../context.tsx';
import { Segments, SelectField } from '../controls/choices.tsx';
import { LengthField, readWords, TextField } from '../controls/fields.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { Section } from '../controls/parts.tsx';
import { WordsField } from '../controls/words-field.tsx';
import { DeleteButton, PlaceFields, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';

const KINDS = ['door', 'window', 'opening'] as const;

/** A door, a window or an opening, with its place along the wall. */
export function OpeningCard({ id }: { id: string }) {
  const units = useUnits();
  const { openings, walls } = useShownPlan().tables;
  const opening = openings.get(id)!;
  const wall = walls.get(opening.wall)!;
  const edit = useEdit('openings', id);
  const beside = opening.along - opening.width / 2;
  return (
    <>
      <CardHead
        picture={TOOL_PICTURES.opening}
        title={opening.name || t(`opening.${opening.kind}`)}
        below={t('opening.below', { length: formatLength(distance(wall.a, wall.b), units) })}
      />
      <Section title={t(`opening.${opening.kind}`)}>
        <TextField
          label={t('field.name')}
          value={opening.name}
          onCommit={(name) => edit({ name })}
        />
        <SelectField
          label={t('field.kind')}
          value={opening.kind}
          options={KINDS.map((kind) => ({ value: kind, label: t(`opening.${kind}`) }))}
          onChoose={(kind) => edit({ kind })}
        />
        <LengthField
          label={t('opening.width')}
          value={opening.width}
          min={1}
          onCommit={(width) => edit({ width })}
        />
        <LengthField
          label={t('field.height')}
          value={opening.height}
          min={1}
          onCommit={(height) => edit({ height })}
        />
        <LengthField
          label={t('opening.sill')}
          value={opening.sill}
          onCommit={(sill) => edit({ sill })}
        />
        <LengthField
          label={t('opening.from-end')}
          value={Math.round(beside)}
          onCommit={(mm) => edit({ along: Math.round(mm + opening.width / 2) })}
        />
        {opening.kind === 'door' ? (
          <>
            <Segments
              label={t('opening.hinge')}
              value={opening.hinge}
              options={[
                { value: 'a', label: t('opening.hinge-a') },
                { value: 'b', label: t('opening.hinge-b') },
              ]}
              onChoose={(hinge) => edit({ hinge })}
            />
            <Segments
              label={t('opening.side')}
              value={opening.side}
              options={[
                { value: 'left', label: t('opening.left') },
                { value: 'right', label: t('opening.right') },
              ]}
              onChoose={(side) => edit({ side })}
            />
          </>
        ) : null}
      </Section>
      <DeleteButton refs={[{ table: 'openings', id }]} label={t(`card.delete-${opening.kind}`)} />
    </>
  );
}

/** The words of a note. */
export function NoteCard({ id }: { id: string }) {
  const note = useShownPlan().tables.notes.get(id)!;
  const edit = useEdit('notes', id);
  return (
    <>
      <CardHead picture={TOOL_PICTURES.note} title={t('thing.notes')} below={t('note.below')} />
      <Section title={t('thing.notes')}>
        <WordsField
          label={t('note.words')}
          value={note.text}
          read={(text) => (text.trim() === '' ? { why: t('note.empty') } : readWords(text))}
          onCommit={(text) => edit({ text })}
        />
        <PlaceFields of={{ table: 'notes', id }} />
      </Section>
      <DeleteButton refs={[{ table: 'notes', id }]} label={t('card.delete-note')} />
    </>
  );
}

/** A dimension line: what it measures, and how far aside it stands. */
export function DimensionCard({ id }: { id: string }) {
  const units = useUnits();
  const row = useShownPlan().tables.dimensions.get(id)!;
  const edit = useEdit('dimensions', id);
  return (
    <>
      <CardHead
        picture={TOOL_PICTURES.dimension}
        title={t('thing.dimensions')}
        below={formatLength(distance(row.a, row.b), units)}
      />
      <Section title={t('thing.dimensions')}>
        <LengthField
          label={t('dimension.aside')}
          value={Math.abs(row.aside)}
          onCommit={(mm) => edit({ aside: row.aside < 0 ? -mm : mm })}
        />
        <Segments
          label={t('dimension.side')}
          value={row.aside < 0 ? 'right' : 'left'}
          options={[
            { value: 'left', label: t('opening.left') },
            { value: 'right', label: t('opening.right') },
          ]}
          onChoose={(side) =>
            edit({ aside: side === 'left' ? Math.abs(row.aside) : -Math.abs(row.aside) })
          }
        />
        <PlaceFields of={{ table: 'dimensions', id }} />
      </Section>
      <DeleteButton refs={[{ table: 'dimensions', id }]} label={t('card.delete-dimension')} />
    </>
  );
}
