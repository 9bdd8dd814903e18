import { BUILT_FIELDS, betweenMarks, builtState, NOT_BUILT } from '../../plan/built.ts';
import type { BuiltValue } from '../../plan/built-words.ts';
import { t } from '../../text/index.ts';
import { useActions, usePlan, useUnits } from '../context.tsx';
import { Fold } from '../controls/parts.tsx';
import { TypedField } from '../controls/typed-field.tsx';
import { doubtWords, followsWords, isFigure, readBuilt, showBuilt } from '../record/fields.ts';

/** What is recorded of one cable as it was built, folded away until somebody wants it. */
export function BuiltFold({ jack: id }: { jack: string }) {
  const plan = usePlan();
  const actions = useActions();
  const units = useUnits();
  const jack = plan.tables.jacks.get(id);
  if (!jack) return null;
  const built = jack.built ?? NOT_BUILT;
  return (
    <Fold title={t('built.section')} aside={t(`built.state.${builtState([jack])}`)}>
      {BUILT_FIELDS.map((field) => (
        <TypedField<BuiltValue>
          key={field}
          label={t(`built.${field}`)}
          kind={isFigure(field) ? 'figure' : 'words'}
          value={built[field]}
          show={(value) => showBuilt(field, value, units)}
          read={(text) => readBuilt(field, text, units)}
          {...(field === 'length'
            ? {
                placeholder: followsWords(betweenMarks(built), units),
                hint: doubtWords(built, units) || undefined,
              }
            : {})}
          onCommit={(value) => {
            actions.run('record', { records: [{ jack: id, fields: { [field]: value } }] });
          }}
        />
      ))}
    </Fold>
  );
}
