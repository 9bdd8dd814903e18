import { formatLength, type Units } from '../../base/units.ts';
import { passName } from '../../plan/names.ts';
import type { Plan } from '../../plan/plan.ts';
import type { Run } from '../../results/types.ts';
import { t } from '../../text/index.ts';
import { useActions, useDesk, usePlan, useUnits } from '../context.tsx';
import { SelectField } from '../controls/choices.tsx';
import { Button, Section } from '../controls/parts.tsx';
import { showRefs } from '../show.ts';
import { TOOL } from '../tool-ids.ts';
import { AllowanceFold } from './allowance-fields.tsx';

/** What a pin does to a run: nothing where it passes there by itself, else how its length changes. */
const effectOf = ({ cost, path }: NonNullable<Run['pinned']>) =>
  cost === 0 ? 'nothing' : path === 0 ? 'same' : path > 0 ? 'longer' : 'shorter';

/** What a pin costs a run, in a sentence. */
export function pinWords(pin: string, run: Pick<Run, 'pinned'> | null, units: Units): string {
  const pinned = run?.pinned;
  if (!pinned) return t('pin.waiting', { pin });
  const by = formatLength(Math.abs(pinned.path), units);
  const effect = effectOf(pinned);
  return effect === 'longer' || effect === 'shorter'
    ? t(`pin.${effect}`, { pin, by })
    : t(`pin.${effect}`, { pin });
}

/** The same in a word or two, beside the label of the run; empty while nobody knows. */
export function pinCost(run: Pick<Run, 'pinned' | 'status'>, units: Units): string {
  if (run.status === 'unroutable') return t('status.unroutable');
  if (!run.pinned) return '';
  const by = formatLength(Math.abs(run.pinned.path), units);
  const effect = effectOf(run.pinned);
  return effect === 'longer' || effect === 'shorter'
    ? t(`pin.cost.${effect}`, { by })
    : t(`pin.cost.${effect}`);
}

/** What a pin is called; null for a run whose way is free. */
export function pinOf(
  plan: Plan,
  jack: string,
): { readonly id: string; readonly name: string } | null {
  const id = plan.tables.jacks.get(jack)?.pin ?? null;
  const pin = id === null ? undefined : plan.tables.pins.get(id);
  return pin ? { id: pin.id, name: passName(plan, 'pins', pin) } : null;
}

/** Whether a run is made to pass a place, what that costs, and the ways to change it. */
export function PinPart({ jack, run }: { jack: string; run: Run | null }) {
  const { session } = useDesk();
  const actions = useActions();
  const plan = usePlan();
  const units = useUnits();
  const pin = pinOf(plan, jack);
  if (!pin)
    return (
      <Button look="quiet" onClick={() => takePin(actions, [jack])}>
        {t('pin.set')}
      </Button>
    );
  return (
    <>
      <p className="note note-held">{pinWords(pin.name, run, units)}</p>
      <div className="button-row">
        <Button onClick={() => showRefs(session, [{ table: 'pins', id: pin.id }])}>
          {t('pin.show', { pin: pin.name })}
        </Button>
        <Button onClick={() => actions.run('leave-free', { jacks: [jack] })}>
          {t('pin.free')}
        </Button>
      </div>
    </>
  );
}

/** Takes the pin in hand for some runs. */
function takePin(actions: ReturnType<typeof useActions>, jacks: readonly string[]): void {
  actions.set({ leg: 'runs' });
  actions.select(jacks.map((id) => ({ table: 'jacks', id })));
  actions.pick(TOOL.pin);
}

/** What can be done to several runs at once: pin them, leave them free, give them allowances. */
export function RunsTogether({ jacks }: { jacks: readonly string[] }) {
  const actions = useActions();
  const plan = usePlan();
  const pins = [...plan.tables.pins.values()];
  const passed = new Set(jacks.map((id) => plan.tables.jacks.get(id)?.pin ?? null));
  const pinned = jacks.filter((id) => plan.tables.jacks.get(id)?.pin != null);
  return (
    <Section title={t('card.runs')} aside={jacks.length}>
      <Button onClick={() => takePin(actions, jacks)}>
        {t.count('pin.set-all', jacks.length)}
      </Button>
      {pins.length > 0 ? (
        <SelectField
          label={t('pin.pass')}
          value={passed.size === 1 ? ([...passed][0] ?? '') : ''}
          options={[
            { value: '', label: passed.size > 1 ? t('several.differ') : t('pin.pass-none') },
            ...pins.map((pin) => ({ value: pin.id, label: passName(plan, 'pins', pin) })),
          ]}
          onChoose={(pin) =>
            pin === ''
              ? actions.run('leave-free', { jacks })
              : actions.run('join-pin', { pin, jacks })
          }
        />
      ) : null}
      {pinned.length > 0 ? (
        <Button look="quiet" onClick={() => actions.run('leave-free', { jacks: pinned })}>
          {t(pinned.length === 1 ? 'pin.free' : 'pin.free-all')}
        </Button>
      ) : null}
      <AllowanceFold jacks={jacks} />
    </Section>
  );
}
