import { BUILT_FIELDS, betweenMarks, builtPorts, builtState, NOT_BUILT } from '../../plan/built.ts';
import type { BuiltValue } from '../../plan/built-words.ts';
import { portsOf } from '../../results/ports.ts';
import { t } from '../../text/index.ts';
import { useDesk, usePlan, useUnits } from '../context.tsx';
import { Fold } from '../controls/parts.tsx';
import { TypedField } from '../controls/typed-field.tsx';
import {
  doubtWords,
  firstEntry,
  followsWords,
  isFigure,
  readBuilt,
  showBuilt,
} from '../record/fields.ts';

/** What is recorded of one cable as it was built, folded away until somebody wants it. */
export function BuiltFold({ jack: id }: { jack: string }) {
  const plan = usePlan();
  const { session } = useDesk();
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
            const { actions, survey } = session.getState();
            const ports = portsOf(survey?.runs ?? [], builtPorts(plan));
            const fields = { ...firstEntry(jack, ports), [field]: value };
            actions.run('record', { records: [{ jack: id, fields }] });
          }}
        />
      ))}
    </Fold>
  );
}
