import { type ReactNode, useState } from 'react';
import { renderMessage } from '../../base/message.ts';
import { tools } from '../../board/tools/index.ts';
import { freeArea } from '../../plan/commands/draw.ts';
import { lastArea } from '../../plan/levels.ts';
import { onLevel, type Zone } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import { useActions, usePlan, useSession, useUnits } from '../context.tsx';
import { SelectField } from '../controls/choices.tsx';
import { TOOL_PICTURES } from '../controls/icons.tsx';
import { AreaTag, Section, ToolRow } from '../controls/parts.tsx';
import { TOOL } from '../tool-ids.ts';
import { Levels } from './levels.tsx';

export function RoomsShelf() {
  const plan = usePlan();
  const level = useSession((s) => s.level);
  const zones = onLevel(plan, 'zones', level);
  return (
    <>
      <Section title={t('rooms.draw')}>
        <ToolWithOptions
          tool={TOOL.room}
          picture={TOOL_PICTURES.room}
          name={t('rooms.rectangle')}
          hint={t('rooms.rectangle-hint')}
          choice={t('rooms.drawn')}
        />
        <ToolWithOptions
          tool={TOOL.outline}
          picture={TOOL_PICTURES.outline}
          name={t('rooms.outline')}
          hint={t('rooms.outline-hint')}
          choice={t('rooms.drawn')}
        />
        <ToolRow
          tool={TOOL.fillRoom}
          picture={TOOL_PICTURES['fill-room']}
          name={t('rooms.fill')}
          hint={t('rooms.fill-hint')}
        />
        <NextArea />
        <ToolRow
          tool={TOOL.keepout}
          picture={TOOL_PICTURES.keepout}
          name={t('rooms.keepout')}
          hint={t('rooms.keepout-hint')}
        />
      </Section>
      <Walls />
      <Words />
      <Levels />
      {zones.length > 0 ? <Areas zones={zones} /> : null}
    </>
  );
}

/** Which letter a new room gets: one of its own, or that of the room before. */
function NextArea() {
  const plan = usePlan();
  const level = useSession((s) => s.level);
  const same = useSession((s) => s.sameArea);
  const actions = useActions();
  const last = lastArea(plan, level);
  if (last === null) return null;
  return (
    <SelectField
      quiet
      label={t('rooms.next-area')}
      value={same ? 'last' : 'own'}
      options={[
        { value: 'own', label: t('rooms.next-area.own', { letter: freeArea(plan, level) }) },
        { value: 'last', label: t('rooms.next-area.last', { letter: last }) },
      ]}
      onChoose={(next) => actions.set({ sameArea: next === 'last' })}
    />
  );
}

/** What is written on the drawing, and measured on it. */
function Words() {
  return (
    <Section title={t('rooms.words')}>
      <ToolRow
        tool={TOOL.note}
        picture={TOOL_PICTURES.note}
        name={t('thing.notes')}
        hint={t('rooms.note-hint')}
      />
      <ToolRow
        tool={TOOL.dimension}
        picture={TOOL_PICTURES.dimension}
        name={t('thing.dimensions')}
        hint={t('rooms.dimension-hint')}
      />
    </Section>
  );
}

function Walls() {
  return (
    <Section title={t('rooms.walls')}>
      <ToolWithOptions
        tool={TOOL.wall}
        picture={TOOL_PICTURES.wall}
        name={t('rooms.wall')}
        hint={t('rooms.wall-hint')}
        choice={t('rooms.look')}
      />
      <ToolWithOptions
        tool={TOOL.trace}
        picture={TOOL_PICTURES.trace}
        name={t('rooms.trace')}
        hint={t('rooms.trace-hint')}
        choice={t('rooms.taken')}
      />
      <ToolWithOptions
        tool={TOOL.opening}
        picture={TOOL_PICTURES.opening}
        name={t('rooms.opening')}
        hint={t('rooms.opening-hint')}
        choice={t('rooms.opening-kind')}
      />
    </Section>
  );
}

/** A tool with a choice of what it draws; the choice is kept while other tools are in hand. */
function ToolWithOptions({
  tool,
  choice,
  ...row
}: {
  tool: string;
  choice: string;
  picture: ReactNode;
  name: string;
  hint: string;
}) {
  const actions = useActions();
  const units = useUnits();
  const inHand = useSession((s) => (s.tool === tool ? s.toolOption : null));
  const [kept, setKept] = useState('');
  const option = inHand ?? kept;
  return (
    <div className="tool-with">
      <ToolRow tool={tool} option={option} anyOption {...row} />
      <SelectField
        quiet
        label={choice}
        value={option}
        options={(tools.get(tool)?.options ?? []).map(({ id, label }) => ({
          value: id,
          label: renderMessage(label, units),
        }))}
        onChoose={(next) => {
          setKept(next);
          actions.pick(tool, next);
        }}
      />
    </div>
  );
}

/** The rooms by their service area, so that the letters and tints read as one legend. */
function Areas({ zones }: { zones: readonly Zone[] }) {
  const actions = useActions();
  const sorted = [...zones].sort((a, b) => (a.area < b.area ? -1 : a.area > b.area ? 1 : 0));
  return (
    <Section title={t('rooms.areas')} aside={t.count('rooms.count', zones.length)}>
      <ul className="plain-list">
        {sorted.map((zone) => (
          <li key={zone.id}>
            <button
              type="button"
              className="list-row"
              onClick={() => actions.select([{ table: 'zones', id: zone.id }])}
            >
              <AreaTag letter={zone.area} />
              <span className="grow">{zone.name || t('thing.zones')}</span>
              <span className="list-detail">{t(`ceiling.${zone.ceiling.kind}.short`)}</span>
            </button>
          </li>
        ))}
      </ul>
    </Section>
  );
}
