import { type DragEvent, type ReactNode, useEffect, useMemo, useState } from 'react';
import type { Leg, SessionApi } from '../board/session.ts';
import type { KindRegistry } from '../kinds/kind.ts';
import type { Plan } from '../plan/plan.ts';
import { t } from '../text/index.ts';
import { Bench } from './bench.tsx';
import { isBlank } from './blank.ts';
import { Card } from './card/index.tsx';
import { createClosetAsking } from './closet-asking.ts';
import { Contents } from './contents/index.tsx';
import {
  type DeskParts,
  DeskProvider,
  useActions,
  useDesk,
  usePlan,
  useSession,
  useUnits,
} from './context.tsx';
import { ICONS } from './controls/icons.tsx';
import { choosePage } from './dialogs/choose-page.tsx';
import { useFreePart } from './free-part.ts';
import { JobLine } from './job-line.tsx';
import { JobMenu } from './job-menu.tsx';
import { useDeskKeys } from './keys.ts';
import { LadderFrame, useLadder } from './ladder/frame.tsx';
import { watchLegs } from './leg-turn.ts';
import { useLostFocus } from './lost-focus.ts';
import { Notices } from './notices.tsx';
import { createPrintChoice, paperFor, usePageCount, usePrintChoice } from './print-choice.ts';
import { RunStrip } from './run-strip.tsx';
import { SampleStrip } from './sample-strip.tsx';
import { useFieldInSight } from './seen.ts';
import type { Services } from './services.ts';
import { useSheetList } from './sheet-list.ts';
import { Shelf } from './shelf/index.tsx';
import { Start } from './start.tsx';
import { useStays } from './stays.ts';
import { useTheme } from './theme.ts';
import { useTypedKept } from './typed-kept.ts';
import './styles/index.css';

/** The panel that is drawn out on a narrow screen; on a wide one shelf and card always stand. */
type Panel = 'none' | 'shelf' | 'card' | 'ladder' | 'contents';

/** The whole screen round the board: job line, shelf, card, length ladder, contents, notices. */
export function Desk({
  session,
  kinds,
  services,
  board,
}: {
  session: SessionApi;
  kinds: KindRegistry;
  services: Services;
  board: ReactNode;
}) {
  const parts = useMemo<DeskParts>(
    () => ({
      session,
      kinds,
      services,
      printChoice: createPrintChoice(),
      closetAsking: createClosetAsking(session, services),
    }),
    [session, kinds, services],
  );
  return (
    <DeskProvider parts={parts}>
      <Frame board={board} />
    </DeskProvider>
  );
}

function Frame({ board }: { board: ReactNode }) {
  const { session } = useDesk();
  const actions = useActions();
  const [theme, setTheme] = useTheme();
  const [panel, setPanel] = useState<Panel>('none');
  const [contents, setContents] = useState(false);
  const [ladder, setLadder] = useLadder();
  const leg = useSession((s) => s.leg);
  const drop = useBring();
  const pages = usePages();
  useDeskKeys();
  useLostFocus();
  useFieldInSight();
  useTypedKept();
  useFreePart();
  useStays();
  usePutAway(() => setPanel('none'));
  useEffect(() => watchLegs(session), [session]);
  const draw = (next: Panel) => setPanel((now) => (now === next ? 'none' : next));
  const toLeg = (next: Leg) => {
    actions.set({ leg: next });
    setContents(false);
    // On a narrow screen the leg that is pressed again puts its shelf away.
    setPanel((now) => (now === 'shelf' && next === leg ? 'none' : 'shelf'));
  };
  return (
    <div className="desk" data-panel={panel} data-ladder={ladder} data-leg={leg} {...drop.handlers}>
      <a className="skip" href="#board">
        {t('skip.board')}
      </a>
      <JobLine pages={pages} onLeg={toLeg} menu={<JobMenu />} />
      <aside className="shelf" aria-label={t('panel.shelf')}>
        {contents || panel === 'contents' ? <Contents /> : <Shelf />}
      </aside>
      <main className="middle" aria-label={t('panel.board')}>
        <Bench
          theme={theme}
          onTheme={setTheme}
          contents={contents}
          onContents={() => setContents(!contents)}
        />
        <SampleStrip />
        <div className="desk-board" id="board" tabIndex={-1}>
          {board}
          <Welcome />
          <RunStrip />
          <Notices />
          {drop.over ? <p className="drop-here">{t('base.drop-here')}</p> : null}
        </div>
        <LadderFrame open={ladder} drawnOut={panel === 'ladder'} onOpen={setLadder} />
      </main>
      <aside className="card" aria-label={t('panel.card')}>
        <Card />
      </aside>
      <PanelBar panel={panel} onPanel={draw} />
    </div>
  );
}

/** The start panel over a blank job that was just taken in hand, until something is done or somebody shuts it. */
function Welcome() {
  const plan = usePlan();
  const untouched = useSession((s) => s.opened === s.history.plan);
  const [shut, setShut] = useState<Plan | null>(null);
  if (!isBlank(plan) || !untouched || shut === plan) return null;
  return <Start onShut={() => setShut(plan)} />;
}

/** The bar along the foot of a narrow screen that draws out one panel at a time. */
function PanelBar({ panel, onPanel }: { panel: Panel; onPanel(panel: Panel): void }) {
  return (
    <nav className="panel-bar" aria-label={t('panel.bar')}>
      {(['shelf', 'card', 'ladder', 'contents'] as const).map((name) => (
        <button
          key={name}
          type="button"
          aria-pressed={panel === name}
          onClick={() => onPanel(name)}
        >
          {{ shelf: ICONS.shelf, card: ICONS.card, ladder: ICONS.bars, contents: ICONS.list }[name]}
          <span>{t(`panel.${name}.short`)}</span>
        </button>
      ))}
    </nav>
  );
}

/** Pages of the sheets that are chosen. */
function usePages(): number | null {
  const choice = usePrintChoice();
  const units = useUnits();
  const sheets = useSheetList().filter((sheet) => !choice.left.has(sheet.id));
  return usePageCount(
    paperFor(choice, units),
    sheets.map((sheet) => sheet.id),
  );
}

/** Puts the drawn-out shelf away as soon as a tool is in hand, so that the board is free for it. */
function usePutAway(putAway: () => void): void {
  const { session } = useDesk();
  useEffect(
    () =>
      session.subscribe((now, before) => {
        const taken = now.tool !== before.tool || now.toolOption !== before.toolOption;
        if (taken && now.tool !== 'select') putAway();
      }),
    [session, putAway],
  );
}

/** Files that are dropped or pasted anywhere on the desk. */
function useBring() {
  const { services } = useDesk();
  const [over, setOver] = useState(false);
  useEffect(() => {
    const paste = (event: ClipboardEvent) => {
      const file = event.clipboardData?.files[0];
      if (!file) return;
      event.preventDefault();
      void services.bring(file, choosePage);
    };
    document.addEventListener('paste', paste);
    return () => document.removeEventListener('paste', paste);
  }, [services]);
  const handlers = {
    onDragOver: (event: DragEvent) => {
      if (![...event.dataTransfer.types].includes('Files')) return;
      event.preventDefault();
      setOver(true);
    },
    onDragLeave: (event: DragEvent) => {
      if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false);
    },
    onDrop: (event: DragEvent) => {
      const file = event.dataTransfer.files[0];
      setOver(false);
      if (!file) return;
      event.preventDefault();
      void services.bring(file, choosePage);
    },
  };
  return { over, handlers };
}
