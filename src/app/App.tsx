import { useMemo } from 'react';
import { Board, type PictureSource } from '../board/index.ts';
import type { SessionApi } from '../board/session.ts';
import { askLength, Desk, openMenu, type Services } from '../desk/index.tsx';
import type { KindRegistry } from '../kinds/kind.ts';
import { Boundary } from './Boundary.tsx';

/** The desk with the board in its middle. */
export function App({
  session,
  kinds,
  services,
  pictures,
}: {
  readonly session: SessionApi;
  readonly kinds: KindRegistry;
  readonly services: Services;
  readonly pictures: PictureSource;
}) {
  const board = useMemo(
    () => (
      <Boundary what="board" onSave={services.saveFile}>
        <Board
          session={session}
          kinds={kinds}
          pictures={pictures}
          onAskLength={(request, along) => askLength(session, request, along)}
          onStraighten={(request) => services.straighten(request)}
          onMenu={(request) => openMenu(session, kinds, request)}
        />
      </Boundary>
    ),
    [session, kinds, services, pictures],
  );
  return (
    <Boundary what="desk" onSave={services.saveFile}>
      <Desk session={session} kinds={kinds} services={services} board={board} />
    </Boundary>
  );
}
