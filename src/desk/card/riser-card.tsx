import { formatLength } from '../../base/units.ts';
import { turnLevel } from '../../board/turn-level.ts';
import { riserSymbol } from '../../drawing/symbols.ts';
import { lowerFirst } from '../../plan/commands/risers.ts';
import { levelBeside, levelsUp } from '../../plan/levels.ts';
import type { Level, Plan, Riser } from '../../plan/plan.ts';
import { runsByRiser } from '../../results/risers.ts';
import { t } from '../../text/index.ts';
import { useActions, useDesk, useSession, useShownPlan, useUnits } from '../context.tsx';
import { CheckField, SelectField } from '../controls/choices.tsx';
import { TextField } from '../controls/fields.tsx';
import { MarksPicture } from '../controls/marks.tsx';
import { Button, Section } from '../controls/parts.tsx';
import { DeleteButton, PlaceFields, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';

export function RiserCard({ id }: { id: string }) {
  const plan = useShownPlan();
  const here = useSession((s) => s.level);
  const riser = plan.tables.risers.get(id)!;
  const lower = plan.tables.levels.get(riser.level)!;
  const upper = plan.tables.levels.get(riser.upper)!;
  return (
    <>
      <CardHead
        picture={
          <MarksPicture
            marks={riserSymbol(riser.level === here)}
            width={6.6}
            height={5.6}
            scale={6}
          />
        }
        title={riser.name || t('thing.risers')}
        below={t('riser.below', { lower: lower.name, upper: upper.name })}
      />
      <RiserFields riser={riser} lower={lower} upper={upper} />
      <OtherLevels plan={plan} riser={riser} here={here} lower={lower} upper={upper} />
      <DeleteButton refs={[{ table: 'risers', id }]} label={t('card.delete-riser')} />
    </>
  );
}

/** The ends of a riser when one of them is put on another level: from the lower to the upper, whichever was changed. */
export function endsWith(
  plan: Plan,
  riser: Riser,
  end: 'level' | 'upper',
  to: string,
): { readonly level: string; readonly upper: string } {
  const moved = plan.tables.levels.get(to)!;
  const stays = plan.tables.levels.get(end === 'level' ? riser.upper : riser.level)!;
  const [low, high] = lowerFirst(moved, stays);
  return { level: low.id, upper: high.id };
}

function RiserFields({ riser, lower, upper }: { riser: Riser; lower: Level; upper: Level }) {
  const plan = useShownPlan();
  const units = useUnits();
  const edit = useEdit('risers', riser.id);
  const cables = useSession((s) =>
    s.survey ? (runsByRiser(s.survey.runs).get(riser.id)?.length ?? 0) : 0,
  );
  const levels = levelsUp(plan);
  const options = (without: Level) =>
    levels
      .filter((level) => level.id !== without.id)
      .map((level) => ({ value: level.id, label: level.name }));
  return (
    <Section title={t('card.riser')}>
      <TextField label={t('field.name')} value={riser.name} onCommit={(name) => edit({ name })} />
      <SelectField
        label={t('riser.from')}
        value={lower.id}
        options={options(upper)}
        onChoose={(to) => edit(endsWith(plan, riser, 'level', to))}
      />
      <SelectField
        label={t('riser.to')}
        value={upper.id}
        options={options(lower)}
        onChoose={(to) => edit(endsWith(plan, riser, 'upper', to))}
      />
      <p className="note">
        {t('riser.height', {
          height: formatLength(upper.elevation - lower.elevation, units),
          cables: t.count('pathway.cables', cables),
        })}
      </p>
      <TextField label={t('field.size')} value={riser.size} onCommit={(size) => edit({ size })} />
      <CheckField
        label={t('field.existing')}
        checked={riser.existing}
        onChange={(existing) => edit({ existing })}
      />
      <PlaceFields of={{ table: 'risers', id: riser.id }} />
      <p className="note">{t('riser.caution')}</p>
    </Section>
  );
}

/** To the other end of it, and on to the next level. */
function OtherLevels({
  plan,
  riser,
  here,
  lower,
  upper,
}: {
  plan: Plan;
  riser: Riser;
  here: string;
  lower: Level;
  upper: Level;
}) {
  const { session } = useDesk();
  const actions = useActions();
  const onUpper = here === upper.id;
  const other = onUpper ? lower : upper;
  const next = levelBeside(plan, upper.id, 1);
  const goesOn =
    next !== null &&
    [...plan.tables.risers.values()].some(
      ({ level, at }) => level === upper.id && at[0] === riser.at[0] && at[1] === riser.at[1],
    );
  return (
    <div className="button-row">
      <Button onClick={() => turnLevel(session, other.id)}>
        {t(onUpper ? 'riser.go-down' : 'riser.go-up', { level: other.name })}
      </Button>
      {next && !goesOn ? (
        <Button
          onClick={() =>
            actions.run('place-riser', {
              level: upper.id,
              to: next.id,
              at: riser.at,
              size: riser.size,
            })
          }
        >
          {t('riser.on', { level: next.name })}
        </Button>
      ) : null}
    </div>
  );
}
