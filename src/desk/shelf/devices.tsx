import { useMemo, useState } from 'react';
import { groupBy } from '../../base/group.ts';
import { renderMessage } from '../../base/message.ts';
import { closetSymbol, jackSymbol, powerSymbol } from '../../drawing/symbols.ts';
import type { DeviceKind } from '../../kinds/kind.ts';
import { t } from '../../text/index.ts';
import { useActions, useKinds, usePlan, useSession, useUnits } from '../context.tsx';
import { KindPicture, MarksPicture } from '../controls/marks.tsx';
import { Button, Fold, Section, ToolRow } from '../controls/parts.tsx';
import { shelfOrder } from '../shelf-order.ts';
import { TOOL } from '../tool-ids.ts';
import { usualNeeds } from '../usual-needs.ts';

export function DevicesShelf() {
  const plan = usePlan();
  const { closets, powers, jacks } = plan.tables;
  const spares = [...jacks.values()].filter((jack) => jack.device === null).length;
  return (
    <>
      <Section title={t('devices.closet')}>
        <ToolRow
          tool={TOOL.closet}
          picture={<MarksPicture marks={closetSymbol()} />}
          name={t('thing.closets')}
          hint={t('devices.closet-hint')}
          count={closets.size}
        />
      </Section>
      <KindRows />
      <Section title={t('devices.beside')}>
        <ToolRow
          tool={TOOL.spare}
          picture={<MarksPicture marks={jackSymbol(1, 'ink', 'wall')} />}
          name={t('devices.spare')}
          hint={t('devices.spare-hint')}
          count={spares}
        />
        <ToolRow
          tool={TOOL.power}
          picture={<MarksPicture marks={powerSymbol()} />}
          name={t('thing.powers')}
          hint={t('devices.power-hint')}
          count={powers.size}
        />
      </Section>
      <Usual />
      {jacks.size > 1 ? <Renumber /> : null}
    </>
  );
}

function KindRows() {
  const units = useUnits();
  const { devices } = usePlan().tables;
  const order = useStandingOrder();
  const counts = groupBy(devices.values(), (device) => device.kind);
  return (
    <Section title={t('devices.kinds')} aside={t.count('devices.count', devices.size)}>
      {order.map((kind) => (
        <ToolRow
          key={kind.id}
          tool={TOOL.device}
          option={kind.id}
          picture={<KindPicture symbol={kind.symbol} code={kind.code} />}
          name={renderMessage(kind.label, units)}
          hint={renderMessage(kind.hint, units)}
          toolKey={kind.key}
          count={counts.get(kind.id)?.length ?? 0}
        />
      ))}
    </Section>
  );
}

/** The kinds in the order of when the shelf or the job was opened: it stands while devices are placed. */
function useStandingOrder(): readonly DeviceKind[] {
  const kinds = useKinds();
  const plan = usePlan();
  const opened = useSession((s) => s.opened);
  const [stands, setStands] = useState({ opened, order: shelfOrder(plan, kinds) });
  if (stands.opened === opened) return stands.order;
  const fresh = { opened, order: shelfOrder(plan, kinds) };
  setStands(fresh);
  return fresh.order;
}

/** What rooms of these names usually need, in words; nothing is placed by it. */
function Usual() {
  const plan = usePlan();
  const kinds = useKinds();
  const level = useSession((s) => s.level);
  const rooms = useMemo(() => usualNeeds(plan, level, kinds), [plan, level, kinds]);
  if (rooms.length === 0) return null;
  return (
    <Fold title={t('devices.usual')} aside={rooms.length}>
      <p className="note">{t('devices.usual-note')}</p>
      <dl className="usual">
        {rooms.map((room) => (
          <div key={room.zone}>
            <dt>{room.name}</dt>
            <dd>
              {room.needs
                .map(({ what, count }) =>
                  count === 0
                    ? t('devices.usual-none', { what })
                    : t('devices.usual-here', { what, count }),
                )
                .join(', ')}
            </dd>
          </div>
        ))}
      </dl>
    </Fold>
  );
}

function Renumber() {
  const actions = useActions();
  return (
    <Section title={t('devices.labels')}>
      <p className="note">{t('devices.renumber-hint')}</p>
      <Button onClick={() => actions.run('renumber', {})}>{t('devices.renumber')}</Button>
    </Section>
  );
}
