import { useState } from 'react';
import { FAR, formatLength } from '../../base/units.ts';
import { turnLevel } from '../../board/turn-level.ts';
import type { Change } from '../../plan/change.ts';
import { levelsUp } from '../../plan/levels.ts';
import type { Level } from '../../plan/plan.ts';
import type { TableName } from '../../plan/schema.ts';
import { t } from '../../text/index.ts';
import { AREAS, CEILINGS } from '../card/choices.ts';
import { useEdit } from '../card/common.tsx';
import { useActions, useDesk, usePlan, useSession, useUnits } from '../context.tsx';
import { CheckField, SelectField } from '../controls/choices.tsx';
import { LengthField, TextField } from '../controls/fields.tsx';
import { AreaTag, Button, Fold, Section } from '../controls/parts.tsx';
import { TypedField } from '../controls/typed-field.tsx';

/** The levels of the building from the top down: which is open, and what can be done to it. */
export function Levels() {
  const plan = usePlan();
  const open = useSession((s) => s.level);
  const levels = levelsUp(plan).reverse();
  const level = plan.tables.levels.get(open)!;
  return (
    <>
      {levels.length > 1 ? <LevelList levels={levels} open={open} /> : null}
      <Fold title={t('level.this', { name: level.name })} key={level.id}>
        <LevelFields level={level} />
        {levels.length > 1 ? <Remove level={level} /> : null}
      </Fold>
      <Fold title={t('level.add')}>
        <Add from={level.id} />
      </Fold>
    </>
  );
}

function LevelList({ levels, open }: { levels: readonly Level[]; open: string }) {
  const { session } = useDesk();
  const units = useUnits();
  return (
    <Section title={t('level.list')} aside={levels.length}>
      <ul className="plain-list">
        {levels.map((level) => (
          <li key={level.id}>
            <button
              type="button"
              className="list-row level-row"
              aria-current={level.id === open ? 'true' : undefined}
              onClick={() => turnLevel(session, level.id)}
            >
              <AreaTag letter={level.area} />
              <span className="grow">{level.name}</span>
              <span className="list-detail">{formatLength(level.elevation, units)}</span>
            </button>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function LevelFields({ level }: { level: Level }) {
  const edit = useEdit('levels', level.id);
  const { ceiling } = level;
  return (
    <>
      <TextField label={t('field.name')} value={level.name} onCommit={(name) => edit({ name })} />
      <LengthField
        label={t('level.floor')}
        value={level.elevation}
        min={-FAR}
        onCommit={(elevation) => edit({ elevation })}
      />
      <p className="note">{t('rooms.level-hint')}</p>
      <LengthField
        label={t('rooms.deck')}
        value={level.deck}
        min={1500}
        onCommit={(deck) => edit({ deck })}
      />
      <SelectField
        label={t('field.ceiling')}
        value={ceiling.kind}
        options={CEILINGS()}
        onChoose={(kind) => edit({ ceiling: { ...ceiling, kind } })}
      />
      <LengthField
        label={t('field.ceiling-height')}
        value={ceiling.height}
        min={1500}
        onCommit={(height) => edit({ ceiling: { ...ceiling, height } })}
      />
      <SelectField
        label={t('field.area')}
        value={level.area}
        options={AREAS()}
        onChoose={(area) => edit({ area })}
      />
      <TypedField
        label={t('level.turn')}
        value={level.frameAngle}
        mode="decimal"
        show={(degrees) => `${degrees}°`}
        read={(text) => {
          const degrees = readDegrees(text);
          return degrees === null ? { why: t('level.turn-wrong') } : { value: degrees };
        }}
        onCommit={(frameAngle) => edit({ frameAngle })}
      />
    </>
  );
}

/** An angle of the building lines as it is typed, degrees clockwise; null when it is none from -90 to 90. */
export function readDegrees(text: string): number | null {
  const match = /^\s*([-−]?)(\d{1,3}(?:\.\d+)?)\s*°?\s*$/.exec(text);
  if (!match) return null;
  const degrees = Number(match[2]) * (match[1] === '' ? 1 : -1);
  return Math.abs(degrees) <= 90 ? degrees + 0 : null;
}

/** What is counted when a level goes, in this order; outlets go with their jacks. */
const COUNTED = [
  'zones',
  'walls',
  'keepouts',
  'pathways',
  'risers',
  'pins',
  'closets',
  'devices',
  'jacks',
  'powers',
  'backgrounds',
] as const satisfies readonly TableName[];

/** What changes take away, counted in words: `Rooms 3, Walls 12`; empty where that is nothing. */
export const goneWords = (changes: readonly Change[]): string =>
  COUNTED.flatMap((table) => {
    const count = changes.filter((c) => c.table === table && c.after === null).length;
    return count === 0 ? [] : `${t(`group.${table}`)} ${count}`;
  }).join(', ');

function Remove({ level }: { level: Level }) {
  const actions = useActions();
  // Asked anew with every plan.
  usePlan();
  const refs = [{ table: 'levels' as const, id: level.id }];
  const outcome = actions.ask('delete', { refs });
  const what = outcome.ok ? goneWords(outcome.changes) : '';
  return (
    <div className="stack">
      <p className="note">{what === '' ? t('level.takes-nothing') : t('level.takes', { what })}</p>
      <Button look="quiet" className="delete" onClick={() => actions.run('delete', { refs })}>
        {t('level.remove', { name: level.name })}
      </Button>
    </div>
  );
}

function Add({ from }: { from: string }) {
  const actions = useActions();
  const [devices, setDevices] = useState(false);
  return (
    <div className="stack">
      <p className="note">{t('level.add-hint')}</p>
      <div className="button-row">
        <Button onClick={() => actions.run('add-level', { from, side: 'above' })}>
          {t('level.above')}
        </Button>
        <Button onClick={() => actions.run('add-level', { from, side: 'below' })}>
          {t('level.below')}
        </Button>
      </div>
      <p className="note">{t('level.copy-hint')}</p>
      <CheckField label={t('level.copy-devices')} checked={devices} onChange={setDevices} />
      <div className="button-row">
        <Button onClick={() => actions.run('copy-level', { level: from, side: 'above', devices })}>
          {t('level.copy-above')}
        </Button>
        <Button onClick={() => actions.run('copy-level', { level: from, side: 'below', devices })}>
          {t('level.copy-below')}
        </Button>
      </div>
    </div>
  );
}
