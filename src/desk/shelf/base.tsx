import { formatScale } from '../../base/drawing-scale.ts';
import { formatLength } from '../../base/units.ts';
import { hasScale, inLayers, ratioOf } from '../../plan/picture-place.ts';
import type { Background } from '../../plan/plan.ts';
import { formatPercent, t } from '../../text/index.ts';
import { useActions, useDesk, usePlan, useSession, useUnits } from '../context.tsx';
import { CheckField } from '../controls/choices.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { Button, Fold, Section, ToolRow } from '../controls/parts.tsx';
import { type Reading, TypedField } from '../controls/typed-field.tsx';
import { askScale } from '../dialogs/ask-scale.tsx';
import { choosePage } from '../dialogs/choose-page.tsx';
import { replaceJob } from '../dialogs/replace.tsx';
import { BeginOwn, isSample } from '../sample-strip.tsx';
import { scaleOutcome } from '../scale-outcome.ts';
import { TOOL } from '../tool-ids.ts';

export function BaseShelf() {
  const plan = usePlan();
  const level = useSession((s) => s.level);
  // The topmost first, as they lie.
  const backgrounds = inLayers(plan, level).reverse();
  return (
    <>
      {isSample(plan) ? (
        <div className="stack">
          <p className="note">{t('sample.base')}</p>
          <BeginOwn />
        </div>
      ) : null}
      <Bring first={backgrounds.length === 0} />
      {backgrounds.length > 0 ? <Scale backgrounds={backgrounds} /> : null}
      {backgrounds.map((background) => (
        <Picture key={background.id} background={background} alone={backgrounds.length === 1} />
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
        {hasCamera() ? (
          <Button onClick={() => services.takePhoto(choosePage)}>{t('base.photo')}</Button>
        ) : null}
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

/** Whether the device is one that is held, with a camera behind it. */
const hasCamera = (): boolean => matchMedia('(pointer: coarse)').matches;

function Scale({ backgrounds }: { backgrounds: readonly Background[] }) {
  const set = backgrounds.every(hasScale);
  const several = backgrounds.length > 1;
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
        <div key={b.id} className="stack">
          <PrintedScale background={b} named={several} />
          <ScaleWords background={b} named={several} />
        </div>
      ))}
    </Section>
  );
}

/** Sets the scale by what is printed on the plan. */
export function PrintedScale({ background, named }: { background: Background; named: boolean }) {
  const { session } = useDesk();
  const actions = useActions();
  const set = async () => {
    const answer = await askScale(session, background);
    if (answer) actions.run('set-printed-scale', { background: background.id, ...answer });
  };
  const words = t('base.printed');
  return (
    <Button look="quiet" title={t('base.printed-hint')} onClick={set}>
      {named && background.name ? t('base.of', { tool: words, name: background.name }) : words}
    </Button>
  );
}

/** How the scale stands, in words. */
export function ScaleWords({ background, named }: { background: Background; named?: boolean }) {
  const units = useUnits();
  const outcome = scaleOutcome(background);
  const name = named && background.name ? `${background.name}: ` : '';
  if (!hasScale(background))
    return <p className="said said-todo">{`${name}${t('base.said.none')}`}</p>;
  const ratio = ratioOf(background);
  const printed = ratio === null ? null : formatScale(ratio, units);
  if (outcome === null)
    return (
      <p className="said">
        {name}
        {background.scale === null
          ? t('base.said.printed', { scale: printed ?? '' })
          : t('base.said.unchecked', { length: formatLength(background.scale.length, units) })}
        {background.scale !== null && printed ? ` ${t('base.said.is', { scale: printed })}` : ''}
      </p>
    );
  const way = t(`base.axis.${outcome.axis}`);
  const measured = formatLength(outcome.measured, units);
  const real = formatLength(outcome.real, units);
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
      <p>{t(`base.said.covers-${outcome.covers}`)}</p>
    </div>
  );
}

function Picture({ background, alone }: { background: Background; alone: boolean }) {
  const actions = useActions();
  const { id, name } = background;
  const edit = (fields: Record<string, unknown>, merge?: string) =>
    actions.run('edit', { table: 'backgrounds', id, fields }, merge);
  return (
    <Section title={name || t('thing.backgrounds')}>
      <label className="slider">
        <span className="field-label">{t('base.fade')}</span>
        <input
          type="range"
          min={10}
          max={100}
          step={5}
          value={background.opacity}
          aria-valuetext={`${background.opacity} %`}
          onChange={(event) => edit({ opacity: Number(event.currentTarget.value) }, `fade ${id}`)}
        />
        <span className="slider-value" aria-hidden="true">
          {background.opacity} %
        </span>
      </label>
      <CheckField
        label={t('base.hide')}
        checked={background.hidden}
        onChange={(hidden) => edit({ hidden })}
      />
      <CheckField
        label={t('base.lock')}
        hint={t('base.lock-hint')}
        checked={background.locked}
        onChange={(locked) => edit({ locked })}
      />
      <CheckField
        label={t('base.is-photo')}
        hint={t('base.is-photo-hint')}
        checked={background.photo}
        onChange={(photo) => edit({ photo })}
      />
      <Fold title={t('base.shape')}>
        <Shape background={background} />
      </Fold>
      <div className="button-row">
        {alone ? null : (
          <>
            <Button onClick={() => actions.run('lay-background', { background: id, over: true })}>
              {t('base.over')}
            </Button>
            <Button onClick={() => actions.run('lay-background', { background: id, over: false })}>
              {t('base.under')}
            </Button>
          </>
        )}
        <Button
          look="quiet"
          onClick={() => actions.run('delete', { refs: [{ table: 'backgrounds', id }] })}
        >
          {t('base.remove')}
        </Button>
      </div>
    </Section>
  );
}

/** The picture's own shape: made upright, level, cut to what matters. */
function Shape({ background }: { background: Background }) {
  const actions = useActions();
  const { id, crop, tilt } = background;
  const edit = (fields: Record<string, unknown>) =>
    actions.run('edit', { table: 'backgrounds', id, fields });
  return (
    <div className="stack">
      <ToolRow
        tool={TOOL.straighten}
        option={id}
        picture={TOOL_PICTURES.straighten}
        name={t('base.straighten')}
        hint={t('base.straighten-hint')}
      />
      <ToolRow
        tool={TOOL.level}
        option={id}
        picture={TOOL_PICTURES.level}
        name={t('base.level')}
        hint={t('base.level-hint')}
      />
      <ToolRow
        tool={TOOL.crop}
        option={id}
        picture={TOOL_PICTURES.crop}
        name={t('base.crop')}
        hint={t('base.crop-hint')}
      />
      <TypedField
        label={t('base.tilt')}
        value={tilt}
        mode="decimal"
        show={(degrees) => `${degrees}°`}
        read={readTilt}
        onCommit={(degrees) => edit({ tilt: degrees })}
      />
      <div className="button-row">
        <Button onClick={() => actions.run('turn-background', { background: id })}>
          {t('base.turn')}
        </Button>
        {crop ? <Button onClick={() => edit({ crop: null })}>{t('base.uncrop')}</Button> : null}
      </div>
    </div>
  );
}

/** Degrees as people type them, to a hundredth. */
function readTilt(text: string): Reading<number> {
  const degrees = Number(
    text
      .replace(/°|deg\w*/i, '')
      .replace(',', '.')
      .trim(),
  );
  if (text.trim() === '' || !(Math.abs(degrees) <= 45)) return { why: t('base.tilt-wrong') };
  return { value: Math.round(degrees * 100) / 100 + 0 };
}
