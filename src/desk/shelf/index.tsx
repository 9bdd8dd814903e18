import { type ComponentType, useLayoutEffect, useRef } from 'react';
import type { Leg } from '../../board/session.ts';
import { t } from '../../text/index.ts';
import { useSession } from '../context.tsx';
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
  const title = useRef<HTMLHeadingElement>(null);
  // A leg that is opened begins at its top, wherever the last one had been scrolled to.
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the leg that changes
  useLayoutEffect(() => {
    title.current?.closest('.shelf')?.scrollTo({ top: 0 });
  }, [leg]);
  return (
    <>
      <h2 className="panel-title" ref={title}>
        {t(`leg.${leg}`)}
      </h2>
      <Body />
    </>
  );
}
