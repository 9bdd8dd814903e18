import type { ComponentType } from 'react';
import type { Leg } from '../../board/session.ts';
import { t } from '../../text/index.ts';
import { useSession } from '../context.tsx';
import { useFromTop } from '../from-top.ts';
import { BaseShelf } from './base.tsx';
import { ChecksShelf } from './checks.tsx';
import { DevicesShelf } from './devices.tsx';
import { PriceShelf } from './price.tsx';
import { PrintShelf } from './print.tsx';
import { RoomsShelf } from './rooms.tsx';
import { RunsShelf } from './runs.tsx';

const SHELVES: Readonly<Record<Leg, ComponentType>> = {
  base: BaseShelf,
  rooms: RoomsShelf,
  devices: DevicesShelf,
  runs: RunsShelf,
  checks: ChecksShelf,
  price: PriceShelf,
  print: PrintShelf,
};

/** What the open leg can place or do. */
export function Shelf() {
  const leg = useSession((s) => s.leg);
  const Body = SHELVES[leg];
  const title = useFromTop(leg);
  return (
    <>
      <h2 className="panel-title" ref={title}>
        {t(`leg.${leg}`)}
      </h2>
      <Body />
    </>
  );
}
