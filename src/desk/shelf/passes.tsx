import { useState } from 'react';
import { pinSymbol, riserSymbol } from '../../drawing/symbols.ts';
import { jacksOfRefs } from '../../plan/jacks.ts';
import { levelBeside, levelsUp, riserEnd, risersOn } from '../../plan/levels.ts';
import { passName } from '../../plan/names.ts';
import { t } from '../../text/index.ts';
import { useActions, useDesk, useKinds, usePlan, useSession } from '../context.tsx';
import { SelectField } from '../controls/choices.tsx';
import { MarksPicture } from '../controls/marks.tsx';
import { Section, ToolRow } from '../controls/parts.tsx';
import { runGroups } from '../run-groups.ts';
import { showRefs } from '../show.ts';
import { TOOL } from '../tool-ids.ts';

/** The riser tool, where it leads, and the risers of the open level. */
export function Risers() {
  const { session } = useDesk();
  const actions = useActions();
  const plan = usePlan();
  const level = useSession((s) => s.level);
  const inHand = useSession((s) => (s.tool === TOOL.riser ? s.toolOption : null));
  const [kept, setKept] = useState('');
  const others = levelsUp(plan)
    .reverse()
    .filter((other) => other.id !== level);
  const usual = levelBeside(plan, level, 1) ?? levelBeside(plan, level, -1);
  const asked = inHand || kept;
  const to = others.find((other) => other.id === asked) ?? usual;
  const option = to && to !== usual ? to.id : '';
  const here = risersOn(plan, level);
  return (
    <Section title={t('runs.between')}>
      <div className="tool-with">
        <ToolRow
          tool={TOOL.riser}
          option={option}
          anyOption
          picture={<MarksPicture marks={riserSymbol(true)} />}
          name={t('runs.riser')}
          hint={to ? t('runs.riser-to', { level: to.name }) : t('runs.riser-alone')}
          count={here.length}
        />
        {others.length > 1 && to ? (
          <SelectField
            quiet
            label={t('runs.riser-level')}
            value={to.id}
            options={others.map(({ id, name }) => ({ value: id, label: name }))}
            onChoose={(next) => {
              setKept(next);
              actions.pick(TOOL.riser, next === usual?.id ? '' : next);
            }}
          />
        ) : null}
      </div>
      {here.length > 0 ? (
        <ul className="plain-list">
          {here.map((riser) => (
            <li key={riser.id}>
              <button
                type="button"
                className="list-row"
                onClick={() => showRefs(session, [{ table: 'risers', id: riser.id }])}
              >
                <span className="grow">{passName(plan, 'risers', riser)}</span>
                <span className="list-detail">{riserEnd(plan, riser, level)?.name}</span>
              </button>
            </li>
          ))}
        </ul>
      ) : null}
    </Section>
  );
}

/** Groups of runs to select, the pin tool for what is selected, and the pins that there are. */
export function Pins() {
  const { session } = useDesk();
  const actions = useActions();
  const plan = usePlan();
  const kinds = useKinds();
  const selection = useSession((s) => s.selection);
  const selected = jacksOfRefs(plan, selection).length;
  const groups = runGroups(plan, kinds);
  const pins = [...plan.tables.pins.values()];
  return (
    <Section title={t('runs.pins')}>
      <ToolRow
        tool={TOOL.pin}
        picture={<MarksPicture marks={pinSymbol()} scale={6} />}
        name={t('runs.pin')}
        hint={selected > 0 ? t.count('runs.pin-count', selected) : t('runs.pin-hint')}
        count={pins.length}
      />
      {groups.length > 0 ? (
        <SelectField
          quiet
          label={t('runs.take')}
          value=""
          options={[
            { value: '', label: t('runs.take-none') },
            ...groups.map(({ key, label }) => ({ value: key, label })),
          ]}
          onChoose={(key) => {
            const group = groups.find((other) => other.key === key);
            if (group) actions.select(group.jacks.map((id) => ({ table: 'jacks', id })));
          }}
        />
      ) : null}
      {pins.length > 0 ? (
        <ul className="plain-list">
          {pins.map((pin) => {
            const ref = { table: 'pins', id: pin.id } as const;
            const count = jacksOfRefs(plan, [ref]).length;
            return (
              <li key={pin.id}>
                <button type="button" className="list-row" onClick={() => showRefs(session, [ref])}>
                  <span className="grow">{passName(plan, 'pins', pin)}</span>
                  <span className="list-detail">
                    {count === 0 ? t('pin.unused') : t.count('runs.count', count)}
                  </span>
                </button>
              </li>
            );
          })}
        </ul>
      ) : null}
    </Section>
  );
}
