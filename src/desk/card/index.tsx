import { type ComponentType, useMemo } from 'react';
import type { Ref } from '../../plan/plan.ts';
import { refKey } from '../../plan/plan.ts';
import type { TableName } from '../../plan/schema.ts';
import { t } from '../../text/index.ts';
import { useKinds, useSession, useShownPlan } from '../context.tsx';
import { Section } from '../controls/parts.tsx';
import { FindingCard } from '../finding-card.tsx';
import { findingsFor } from '../names.ts';
import { DeviceCard } from './device-card.tsx';
import { Nothing } from './nothing.tsx';
import { JackCard, OutletCard } from './outlet-card.tsx';
import { Several } from './several.tsx';
import {
  BackgroundCard,
  ClosetCard,
  KeepoutCard,
  PathwayCard,
  PowerCard,
  WallCard,
  ZoneCard,
} from './thing-cards.tsx';

const CARDS: Partial<Record<TableName, ComponentType<{ id: string }>>> = {
  devices: DeviceCard,
  outlets: OutletCard,
  jacks: JackCard,
  closets: ClosetCard,
  powers: PowerCard,
  zones: ZoneCard,
  walls: WallCard,
  keepouts: KeepoutCard,
  pathways: PathwayCard,
  backgrounds: BackgroundCard,
};

/** What is selected, in words. */
export function Card() {
  const selection = useSession((s) => s.selection);
  const plan = useShownPlan();
  const there = selection.filter((ref) => plan.tables[ref.table].has(ref.id));
  if (there.length === 0) return <Nothing />;
  if (there.length > 1) return <Several refs={there} />;
  const ref = there[0]!;
  const Body = CARDS[ref.table];
  if (!Body) return <Nothing />;
  return (
    <div key={refKey(ref)}>
      <Body id={ref.id} />
      <Findings refs={there} />
    </div>
  );
}

function Findings({ refs }: { refs: readonly Ref[] }) {
  const plan = useShownPlan();
  const kinds = useKinds();
  const findings = useSession((s) => s.survey?.findings ?? null);
  const these = useMemo(
    () => (findings ? refs.flatMap((ref) => findingsFor(plan, findings, ref)) : []),
    [plan, findings, refs],
  );
  if (these.length === 0 || kinds.size === 0) return null;
  return (
    <Section title={t('card.findings')} aside={these.length}>
      {these.map((finding, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: findings have no name of their own
        <FindingCard key={`${finding.rule} ${i}`} finding={finding} show={false} />
      ))}
    </Section>
  );
}
