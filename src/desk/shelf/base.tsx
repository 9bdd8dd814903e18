import { formatLength } from '../../base/units.ts';
import { type Background, onLevel } from '../../plan/plan.ts';
import { formatPercent, t } from '../../text/index.ts';
import { useActions, useDesk, usePlan, useSession, useUnits } from '../context.tsx';
import { CheckField } from '../controls/choices.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { Button, Section, ToolRow } from '../controls/parts.tsx';
import { choosePage } from '../dialogs/choose-page.tsx';
import { replaceJob } from '../dialogs/replace.tsx';
import { scaleOutcome } from '../scale-outcome.ts';
import { TOOL } from '../tool-ids.ts';

export function BaseShelf() {
  const plan = usePlan();
  const level = useSession((s) => s.level);
  const backgrounds = onLevel(plan, 'backgrounds', level);
  return (
    <>
      <Bring first={backgrounds.length === 0} />
      {backgrounds.length > 0 ? <Scale backgrounds={backgrounds} /> : null}
      {backgrounds.map((background) => (
        <Picture key={background.id} background={background} />
      ))}
    </>
  );
}

function Bring({ first }: { first: boolean }) {
  const { session, services } = useDesk();
  return (
    <Section title={t(first ? 'base.bring' : 'base.bring-more')}>
      <div className="stack">
        <Button look={first ? 'main' : 'plain'} onClick={() => services.choosePicture(choosePage)}>
          {t('base.choose')}
        </Button>
        <p className="note">{t('base.drop')}</p>
        {first ? (
          <>
            <p className="note">{t('base.blank')}</p>
            <Button
              look="quiet"
              onClick={() => replaceJob(session, services, () => services.openSample('restaurant'))}
            >
              {t('base.sample')}
            </Button>
          </>
        ) : null}
      </div>
    </Section>
  );
}

function Scale({ backgrounds }: { backgrounds: readonly Background[] }) {
  const set = backgrounds.every((b) => b.scale !== null);
  return (
    <Section title={t('base.scale')}>
      <ToolRow
        tool={TOOL.setScale}
        picture={TOOL_PICTURES.scale}
        name={t(set ? 'base.set-again' : 'base.set')}
        hint={t('base.set-hint')}
      />
      <ToolRow
        tool={TOOL.checkScale}
        picture={TOOL_PICTURES.check}
        name={t('base.check')}
        hint={t('base.check-hint')}
      />
      {backgrounds.map((b) => (
        <ScaleWords key={b.id} background={b} named={backgrounds.length > 1} />
      ))}
    </Section>
  );
}

/** How the scale stands, in words. */
export function ScaleWords({ background, named }: { background: Background; named?: boolean }) {
  const units = useUnits();
  const outcome = scaleOutcome(background);
  const name = named && background.name ? `${background.name}: ` : '';
  if (background.scale === null)
    return <p className="said said-todo">{`${name}${t('base.said.none')}`}</p>;
  const length = formatLength(background.scale.length, units);
  if (outcome === null)
    return <p className="said">{`${name}${t('base.said.unchecked', { length })}`}</p>;
  const way = t(`base.axis.${outcome.axis}`);
  const measured = formatLength(outcome.measured, units);
  const real = formatLength(outcome.real, units);
  const more = outcome.otherWay ? 'base.said.both-ways' : 'base.said.one-way';
  return (
    <div className={`said said-${outcome.verdict}`}>
      <p>
        {name}
        {t('base.said.measured', { way, measured, real })}{' '}
        <strong>
          {outcome.error === 0
            ? t('base.said.exact')
            : t(outcome.error > 0 ? 'base.said.long' : 'base.said.short', {
                by: formatPercent(Math.abs(outcome.error)),
              })}
        </strong>{' '}
        {t(`base.verdict.${outcome.verdict}`)}
      </p>
      <p>{t(more)}</p>
    </div>
  );
}

function Picture({ background }: { background: Background }) {
  const actions = useActions();
  const loose = useSession((s) => s.backgroundsLoose);
  const edit = (fields: Record<string, unknown>, merge?: string) =>
    actions.run('edit', { table: 'backgrounds', id: background.id, fields }, merge);
  const title = background.name || t('thing.backgrounds');
  return (
    <Section title={title}>
      <label className="slider">
        <span className="field-label">{t('base.fade')}</span>
        <input
          type="range"
          min={10}
          max={100}
          step={5}
          value={background.opacity}
          aria-valuetext={`${background.opacity} %`}
          onChange={(event) =>
            edit({ opacity: Number(event.currentTarget.value) }, `fade ${background.id}`)
          }
        />
        <output>{background.opacity} %</output>
      </label>
      <CheckField
        label={t('base.hide')}
        checked={background.hidden}
        onChange={(hidden) => edit({ hidden })}
      />
      <CheckField
        label={t('base.loose')}
        hint={t('base.loose-hint')}
        checked={loose}
        onChange={(on) => actions.set({ backgroundsLoose: on })}
      />
      <div className="button-row">
        <Button onClick={() => actions.run('turn-background', { background: background.id })}>
          {t('base.turn')}
        </Button>
        <Button
          look="quiet"
          onClick={() =>
            actions.run('delete', { refs: [{ table: 'backgrounds', id: background.id }] })
          }
        >
          {t('base.remove')}
        </Button>
      </div>
    </Section>
  );
}
