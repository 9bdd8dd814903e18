import { useState } from 'react';
import { FAR } from '../../base/units.ts';
import type { Ref } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useActions, useUnits } from '../context.tsx';
import { LengthField, WholeField } from '../controls/fields.tsx';
import { Button, Fold } from '../controls/parts.tsx';

/** The most copies in a row that are made at once. */
const MOST = 200;

/** Copies what is selected several times in a row, each as far from the last. */
export function Repeat({ refs }: { refs: readonly Ref[] }) {
  const actions = useActions();
  const units = useUnits();
  const [count, setCount] = useState(1);
  const [east, setEast] = useState(units === 'ft' ? 1219 : 1200);
  const [south, setSouth] = useState(0);
  return (
    <Fold title={t('repeat.title')}>
      <WholeField label={t('repeat.count')} value={count} min={1} max={MOST} onCommit={setCount} />
      <LengthField label={t('repeat.east')} value={east} min={-FAR} onCommit={setEast} />
      <LengthField label={t('repeat.south')} value={south} min={-FAR} onCommit={setSouth} />
      <p className="note">{t('repeat.hint')}</p>
      <Button onClick={() => actions.run('duplicate', { refs, by: [east, south], count })}>
        {t('repeat.go')}
      </Button>
    </Fold>
  );
}
