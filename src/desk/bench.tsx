import { useEffect, useState } from 'react';
import { renderMessage } from '../base/message.ts';
import { UNDER_KEY } from '../board/keys.ts';
import { redoLabel, type Shown, undoLabel } from '../board/session.ts';
import { turnLevel } from '../board/turn-level.ts';
import { levelsUp } from '../plan/levels.ts';
import { job, onLevel } from '../plan/plan.ts';
import { t } from '../text/index.ts';
import { useActions, useDesk, usePlan, useSession, useUnits } from './context.tsx';
import { CheckField, Segments } from './controls/choices.tsx';
import { Drop, DropItem } from './controls/drop.tsx';
import { ICONS } from './controls/icons.tsx';
import { IconButton } from './controls/parts.tsx';
import { openHelp } from './dialogs/open-help.tsx';
import type { Theme } from './worn-theme.ts';

/** The strip between the tape and the board: steps back and forth, the level, and how the drawing is shown. */
export function Bench({
  theme,
  onTheme,
  contents,
  onContents,
}: {
  theme: Theme;
  onTheme(theme: Theme): void;
  contents: boolean;
  onContents(): void;
}) {
  const { session, kinds } = useDesk();
  return (
    <section className="bench" aria-label={t('bench.label')}>
      <Steps />
      <LevelChoice />
      <SnapSwitch />
      <SnapUnderSwitch />
      <span className="bench-roomy">
        <UnitsSwitch />
      </span>
      <ShownDrop theme={theme} onTheme={onTheme} />
      <button
        type="button"
        className="bench-toggle bench-contents"
        title={t('contents.title')}
        aria-pressed={contents}
        onClick={onContents}
      >
        {ICONS.list}
        <span>{t('contents.title')}</span>
      </button>
      <span className="bench-roomy">
        <IconButton
          label={t(theme === 'dark' ? 'theme.light' : 'theme.dark')}
          onClick={() => onTheme(theme === 'dark' ? 'light' : 'dark')}
        >
          {theme === 'dark' ? ICONS.day : ICONS.night}
        </IconButton>
      </span>
      <IconButton label={t('help.title')} onClick={() => openHelp(kinds, session)}>
        {ICONS.help}
      </IconButton>
    </section>
  );
}

/** Undo and redo, side by side, and after them the last step by its name, so that no name moves a button. */
function Steps() {
  const actions = useActions();
  const units = useUnits();
  const back = useSession(undoLabel);
  const forth = useSession(redoLabel);
  const step = (label: typeof back, key: 'undo' | 'redo') => {
    const words =
      label === null
        ? t(`step.no-${key}`)
        : t(`step.${key}`, { step: renderMessage(label, units) });
    return (
      <IconButton label={words} disabled={label === null} onClick={() => actions[key]()}>
        {ICONS[key]}
      </IconButton>
    );
  };
  return (
    <div className="steps">
      {step(back, 'undo')}
      {step(forth, 'redo')}
      <StepList last={back === null ? t('step.first') : renderMessage(back, units)} />
      <Measuring />
    </div>
  );
}

/** Every step of the history by its name; picking one goes back or forth to just after it. */
function StepList({ last }: { last: string }) {
  const actions = useActions();
  const units = useUnits();
  const { steps, cursor } = useSession((s) => s.history);
  if (steps.length === 0) return null;
  const rows = [...steps.keys()].reverse();
  return (
    <Drop
      align="left"
      face={
        <>
          <span className="step-last">{last}</span>
          <span className="step-count">{t('step.count', { count: cursor })}</span>
        </>
      }
    >
      <ol className="step-list" aria-label={t('step.list')}>
        {rows.map((i) => (
          <li key={i} className={i >= cursor ? 'step-undone' : ''}>
            <button
              type="button"
              className="drop-item"
              aria-current={i === cursor - 1 ? 'step' : undefined}
              onClick={() => actions.walk(i + 1)}
            >
              <span>{renderMessage(steps[i]!.label, units)}</span>
              {i >= cursor ? <span className="step-mark">{t('step.undone')}</span> : null}
            </button>
          </li>
        ))}
        <li>
          <button
            type="button"
            className="drop-item"
            aria-current={cursor === 0 ? 'step' : undefined}
            onClick={() => actions.walk(0)}
          >
            <span>{t('step.first')}</span>
          </button>
        </li>
      </ol>
    </Drop>
  );
}

/** Says that figures are a moment behind, when they are for longer than a blink. */
function Measuring() {
  const behind = useSession((s) => s.surveyed !== s.history.plan);
  const [said, setSaid] = useState(false);
  useEffect(() => {
    if (!behind) return setSaid(false);
    const timer = setTimeout(() => setSaid(true), 400);
    return () => clearTimeout(timer);
  }, [behind]);
  return <span className="measuring">{said ? t('bench.measuring') : ''}</span>;
}

function LevelChoice() {
  const { session } = useDesk();
  const level = useSession((s) => s.level);
  const levels = levelsUp(usePlan()).reverse();
  if (levels.length < 2) return null;
  return (
    <span className="bench-choice">
      <select
        className="field-input"
        aria-label={t('level.choose')}
        aria-keyshortcuts="PageUp PageDown"
        value={level}
        onChange={(event) => turnLevel(session, event.currentTarget.value)}
      >
        {levels.map((row) => (
          <option key={row.id} value={row.id}>
            {row.name}
          </option>
        ))}
      </select>
    </span>
  );
}

function SnapSwitch() {
  const actions = useActions();
  const snapping = useSession((s) => s.snapping);
  return (
    <button
      type="button"
      className="bench-toggle"
      title={t('bench.snap')}
      aria-pressed={snapping}
      onClick={() => actions.set({ snapping: !snapping })}
    >
      {ICONS.snap}
      <span>{t('bench.snap')}</span>
    </button>
  );
}

/** Whether the lines of the backgrounds act, too; there where a level has one. */
function SnapUnderSwitch() {
  const actions = useActions();
  const snapsUnder = useSession((s) => s.snapsUnder);
  const snapping = useSession((s) => s.snapping);
  const any = useSession((s) => onLevel(s.history.plan, 'backgrounds', s.level).length > 0);
  if (!any) return null;
  return (
    <button
      type="button"
      className="bench-toggle bench-under"
      aria-pressed={snapping && snapsUnder}
      aria-keyshortcuts={UNDER_KEY}
      title={t('bench.snap-under-title')}
      disabled={!snapping}
      onClick={() => actions.set({ snapsUnder: !snapsUnder })}
    >
      {ICONS.snapUnder}
      <span>{t('bench.snap-under')}</span>
    </button>
  );
}

function UnitsSwitch() {
  const actions = useActions();
  const units = useSession((s) => job(s.history.plan).units);
  return (
    <Segments
      quiet
      label={t('units.label')}
      value={units}
      options={[
        { value: 'ft', label: t('units.ft'), short: 'ft' },
        { value: 'm', label: t('units.m'), short: 'm' },
      ]}
      onChoose={(next) => actions.run('edit', { table: 'job', id: 'job', fields: { units: next } })}
    />
  );
}

const SHOWN: readonly (keyof Shown)[] = [
  'background',
  'rooms',
  'counts',
  'labels',
  'power',
  'below',
  'overview',
  'ceiling',
];

/** How the drawing is shown; on a phone with what the strip has no room for. */
function ShownDrop({ theme, onTheme }: { theme: Theme; onTheme(theme: Theme): void }) {
  const actions = useActions();
  const shown = useSession((s) => s.shown);
  const levels = usePlan().tables.levels.size;
  return (
    <Drop
      face={
        <>
          {ICONS.eye}
          <span className="bench-word">{t('shown.label')}</span>
        </>
      }
    >
      <fieldset className="drop-checks">
        <legend className="unseen">{t('shown.label')}</legend>
        {SHOWN.filter((part) => part !== 'below' || levels > 1).map((part) => (
          <CheckField
            key={part}
            label={t(`shown.${part}`)}
            checked={shown[part]}
            onChange={(on) => actions.set({ shown: { ...shown, [part]: on } })}
          />
        ))}
      </fieldset>
      <div className="drop-tight">
        <UnitsSwitch />
        <DropItem onPick={() => onTheme(theme === 'dark' ? 'light' : 'dark')}>
          {t(theme === 'dark' ? 'theme.light' : 'theme.dark')}
        </DropItem>
      </div>
    </Drop>
  );
}
