import { type ReactNode, useState } from 'react';
import { renderMessage } from '../../base/message.ts';
import { FOOT } from '../../base/units.ts';
import type { Edge } from '../../plan/commands/align.ts';
import type { Ref } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useActions, useKinds, useUnits } from '../context.tsx';
import { SelectField } from '../controls/choices.tsx';
import { LengthField, WholeField } from '../controls/fields.tsx';
import { Button, Fold } from '../controls/parts.tsx';
import { TOOL } from '../tool-ids.ts';

const EDGES: readonly Edge[] = ['left', 'right', 'top', 'bottom', 'across', 'down'];

/** Aligning, spreading, turning and mirroring what is selected. */
export function Arrange({ refs }: { refs: readonly Ref[] }) {
  const actions = useActions();
  const [angle, setAngle] = useState(45);
  const many = refs.length > 1;
  return (
    <Fold title={t('arrange.title')} open={many}>
      {many ? (
        <Buttons label={t('arrange.align')}>
          {EDGES.map((edge) => (
            <Button key={edge} onClick={() => actions.run('align', { refs, edge })}>
              {t(`arrange.${edge}`)}
            </Button>
          ))}
        </Buttons>
      ) : null}
      {refs.length > 2 ? (
        <Buttons label={t('arrange.spread')}>
          <Button onClick={() => actions.run('distribute', { refs, along: 'x' })}>
            {t('arrange.spread-x')}
          </Button>
          <Button onClick={() => actions.run('distribute', { refs, along: 'y' })}>
            {t('arrange.spread-y')}
          </Button>
        </Buttons>
      ) : null}
      <Buttons label={t('arrange.turn')}>
        <Button onClick={() => actions.run('rotate', { refs, by: -90 })}>
          {t('arrange.turn-left')}
        </Button>
        <Button onClick={() => actions.run('rotate', { refs, by: 90 })}>
          {t('arrange.turn-right')}
        </Button>
        <Button onClick={() => actions.run('mirror', { refs, across: 'x' })}>
          {t('arrange.mirror-x')}
        </Button>
        <Button onClick={() => actions.run('mirror', { refs, across: 'y' })}>
          {t('arrange.mirror-y')}
        </Button>
      </Buttons>
      <div className="field-with">
        <WholeField
          label={t('arrange.angle')}
          value={angle}
          min={-360}
          max={360}
          onCommit={setAngle}
        />
        <Button onClick={() => actions.run('rotate', { refs, by: angle })}>
          {t('arrange.turn-by')}
        </Button>
      </div>
    </Fold>
  );
}

function Buttons({ label, children }: { label: string; children: ReactNode }) {
  return (
    <fieldset className="arrange-buttons">
      <legend>{label}</legend>
      {children}
    </fieldset>
  );
}

/** One of these every so far along a line that is drawn next. */
export function Along() {
  const actions = useActions();
  const units = useUnits();
  const [step, setStep] = useState(units === 'ft' ? Math.round(4 * FOOT) : 1200);
  return (
    <Fold title={t('along.title')}>
      <LengthField label={t('along.step')} value={step} min={1} onCommit={setStep} />
      <p className="note">{t('along.hint')}</p>
      <Button onClick={() => actions.pick(TOOL.repeat, String(step))}>{t('along.go')}</Button>
    </Fold>
  );
}

/** Makes devices another kind. */
export function ReplaceKind({ refs }: { refs: readonly Ref[] }) {
  const actions = useActions();
  const kinds = useKinds();
  const units = useUnits();
  return (
    <SelectField
      label={t('several.replace')}
      value=""
      options={[
        { value: '', label: t('several.replace-by') },
        ...[...kinds.values()].map((kind) => ({
          value: kind.id,
          label: renderMessage(kind.label, units),
        })),
      ]}
      onChoose={(kind) => kind !== '' && actions.run('replace-kind', { refs, kind })}
    />
  );
}
