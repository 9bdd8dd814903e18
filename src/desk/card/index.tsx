import type { ComponentType, ReactNode } from 'react';
import { refKey } from '../../plan/plan.ts';
import type { TableName } from '../../plan/schema.ts';
import { useSession, useShownPlan } from '../context.tsx';
import { BackgroundCard } from './background-card.tsx';
import { ClosetCard, PowerCard } from './closet-card.tsx';
import { DeviceCard } from './device-card.tsx';
import { DimensionCard, NoteCard, OpeningCard } from './drawn-cards.tsx';
import { CardFindings } from './findings.tsx';
import { Nothing } from './nothing.tsx';
import { JackCard, OutletCard } from './outlet-card.tsx';
import { PathwayCard } from './pathway-card.tsx';
import { PinCard } from './pin-card.tsx';
import { RiserCard } from './riser-card.tsx';
import { KeepoutCard, ZoneCard } from './room-card.tsx';
import { Several } from './several.tsx';
import { WallCard } from './wall-card.tsx';

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
  risers: RiserCard,
  pins: PinCard,
  backgrounds: BackgroundCard,
  openings: OpeningCard,
  notes: NoteCard,
  dimensions: DimensionCard,
};

/** What is selected, in words. */
export function Card() {
  const selection = useSession((s) => s.selection);
  const plan = useShownPlan();
  const there = selection.filter((ref) => plan.tables[ref.table].has(ref.id));
  const ref = there[0];
  const Body = ref && CARDS[ref.table];
  if (there.length > 1) return <Sheet key="several" body={<Several refs={there} />} />;
  if (!ref || !Body) return <Sheet key="nothing" body={<Nothing />} />;
  return <Sheet key={refKey(ref)} body={<Body id={ref.id} />} foot={<CardFindings of={ref} />} />;
}

/** A card as it is scrolled; its foot stays in sight. */
const Sheet = ({ body, foot }: { body: ReactNode; foot?: ReactNode }) => (
  <>
    <div className="card-body">{body}</div>
    {foot}
  </>
);
