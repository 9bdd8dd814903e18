import { FAR } from '../../base/units.ts';
import { pinSymbol } from '../../drawing/symbols.ts';
import type { Point } from '../../geometry/point.ts';
import { jacksOfRefs } from '../../plan/jacks.ts';
import type { Pin, Plan } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useActions, useDesk, useKinds, useSession, useShownPlan, useUnits } from '../context.tsx';
import { SelectField } from '../controls/choices.tsx';
import { LengthField, TextField } from '../controls/fields.tsx';
import { ICONS } from '../controls/icons.tsx';
import { MarksPicture } from '../controls/marks.tsx';
import { Button, IconButton, Section } from '../controls/parts.tsx';
import { runGroups } from '../run-groups.ts';
import { showRefs } from '../show.ts';
import { DeleteButton, useEdit } from './common.tsx';
import { CardHead } from './head.tsx';
import { pinCost } from './pinning.tsx';

export function PinCard({ id }: { id: string }) {
  const plan = useShownPlan();
  const pin = plan.tables.pins.get(id)!;
  const edit = useEdit('pins', id);
  const jacks = jacksOfRefs(plan, [{ table: 'pins', id }]);
  return (
    <>
      <CardHead
        picture={<MarksPicture marks={pinSymbol()} width={4.4} height={3.8} scale={9} />}
        title={pin.name || t('thing.pins')}
        below={jacks.length === 0 ? t('pin.unused') : t.count('pin.below', jacks.length)}
      />
      <Section title={t('card.pin')}>
        <TextField label={t('field.name')} value={pin.name} onCommit={(name) => edit({ name })} />
      </Section>
      <Passing id={id} jacks={jacks} />
      <Places pin={pin} />
      <DeleteButton refs={[{ table: 'pins', id }]} label={t('card.delete-pin')} />
    </>
  );
}

/** Half-way on from a place to the next, or a step on where it is the last. */
export function placeAfter(points: readonly Point[], index: number): Point {
  const [x, y] = points[index]!;
  const next = points[index + 1];
  if (next) return [Math.round((x + next[0]) / 2), Math.round((y + next[1]) / 2)];
  return [x + 1000, y];
}

/** The places in order from the jack to the closet, each typed, and one more or less. */
function Places({ pin }: { pin: Pin }) {
  const edit = useEdit('pins', pin.id);
  const { points } = pin;
  const put = (index: number, to: Point) =>
    edit({ points: points.map((p, i) => (i === index ? to : p)) });
  return (
    <Section title={t('pin.places')} aside={points.length}>
      {points.map((at, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the places are an order, without names of their own
        <fieldset key={i} className="pin-place">
          <legend>{t('pin.place', { number: i + 1 })}</legend>
          <div className="pair">
            <LengthField
              label={t('place.east')}
              value={at[0]}
              min={-FAR}
              onCommit={(mm) => put(i, [mm, at[1]])}
            />
            <LengthField
              label={t('place.south')}
              value={at[1]}
              min={-FAR}
              onCommit={(mm) => put(i, [at[0], mm])}
            />
          </div>
          {points.length > 1 ? (
            <IconButton
              label={t('pin.remove-place', { number: i + 1 })}
              onClick={() => edit({ points: points.filter((_, k) => k !== i) })}
            >
              {ICONS.trash}
            </IconButton>
          ) : null}
        </fieldset>
      ))}
      {points.length < 50 ? (
        <Button
          look="quiet"
          onClick={() => edit({ points: [...points, placeAfter(points, points.length - 1)] })}
        >
          {t('pin.add-place')}
        </Button>
      ) : null}
    </Section>
  );
}

/** The runs that can still be made to pass a pin: by group, then one by one; groups that pass it whole are left out. */
export function runsToAdd(
  plan: Plan,
  kinds: ReturnType<typeof useKinds>,
  jacks: readonly string[],
): { readonly value: string; readonly label: string; readonly jacks: readonly string[] }[] {
  const here = new Set(jacks);
  const groups = runGroups(plan, kinds)
    .filter((group) => group.jacks.some((id) => !here.has(id)))
    .map(({ key, label, jacks: of }) => ({ value: key, label, jacks: of }));
  const all = jacksOfRefs(
    plan,
    [...plan.tables.jacks.keys()].map((id) => ({ table: 'jacks', id })),
  );
  const single = all
    .filter((id) => !here.has(id))
    .map((id) => ({
      value: `jack ${id}`,
      label: t('run.title', { label: plan.tables.jacks.get(id)!.label }),
      jacks: [id],
    }));
  return [...groups, ...single];
}

function Passing({ id, jacks }: { id: string; jacks: readonly string[] }) {
  const actions = useActions();
  const plan = useShownPlan();
  const kinds = useKinds();
  const more = runsToAdd(plan, kinds, jacks);
  return (
    <Section title={t('card.passes')} aside={jacks.length}>
      {jacks.length === 0 ? null : (
        <ul className="plain-list">
          {jacks.map((jack) => (
            <PassingRow key={jack} jack={jack} />
          ))}
        </ul>
      )}
      {more.length > 0 ? (
        <SelectField
          label={t('pin.add')}
          value=""
          options={[{ value: '', label: t('pin.add-none') }, ...more]}
          onChoose={(value) => {
            const chosen = more.find((option) => option.value === value);
            if (chosen) actions.run('join-pin', { pin: id, jacks: chosen.jacks });
          }}
        />
      ) : null}
      {jacks.length > 0 ? (
        <>
          <Button onClick={() => actions.run('leave-free', { jacks })}>
            {t(jacks.length === 1 ? 'pin.free' : 'pin.free-all')}
          </Button>
          <p className="note">{t('pin.free-hint')}</p>
        </>
      ) : null}
    </Section>
  );
}

/** A run that passes: what the pin costs it, and the button that lets it go. */
function PassingRow({ jack }: { jack: string }) {
  const { session } = useDesk();
  const actions = useActions();
  const units = useUnits();
  const plan = useShownPlan();
  const run = useSession((s) => s.survey?.runs.find((r) => r.jack === jack) ?? null);
  const { label } = plan.tables.jacks.get(jack)!;
  return (
    <li className="pin-run">
      <button
        type="button"
        className="list-row"
        onClick={() => showRefs(session, [{ table: 'jacks', id: jack }])}
      >
        <span className="figure">{label}</span>
        <span className="grow list-detail">{run ? pinCost(run, units) : ''}</span>
      </button>
      <IconButton
        label={t('pin.let-go', { label })}
        onClick={() => actions.run('leave-free', { jacks: [jack] })}
      >
        {ICONS.close}
      </IconButton>
    </li>
  );
}
