import { createRoot, type Root } from 'react-dom/client';
import * as z from 'zod/mini';
import type { Message } from '../base/message.ts';
import { createSession, type SessionApi } from '../board/session.ts';
import { fitPlan } from '../board/view.ts';
import { kinds } from '../kinds/index.ts';
import { readPlan } from '../plan/codec.ts';
import { startHistory } from '../plan/history.ts';
import { emptyPlan } from '../plan/plan.ts';
import { createSurveyClient, openWorker } from '../worker/client.ts';
import { App } from './App.tsx';
import { Elsewhere } from './Elsewhere.tsx';
import { download, unforeseen } from './files.ts';
import { type Kept, keepFrom, openKept, UNREAD_FILE } from './keeping.ts';
import { holdJob } from './one-tab.ts';
import { overheadAlong } from './overhead.ts';
import { createPictureSource } from './pictures/source.ts';
import { Trouble } from './pictures/trouble.ts';
import { readUnder } from './pictures/under-client.ts';
import { createServices } from './services.ts';
import { surveyAlong } from './surveying.ts';
import { sampleText } from './taking-in.ts';
import { underlayAlong } from './underlay.ts';
import './fonts.css';
import './app.css';

// The page forbids code made from strings, so the checks of files are not compiled either.
z.config({ jitless: true });

const SAMPLES = ['restaurant', 'cafe'] as const;
type SampleId = (typeof SAMPLES)[number];

/** The job to begin with: as it was left, or on the first visit a sample, already measured. */
async function firstPlan(session: SessionApi, kept: Kept, sample: SampleId): Promise<void> {
  const { actions } = session.getState();
  if (kept.history) {
    actions.open(kept.history);
  } else {
    const read = await sampleText(sample).then((text) => readPlan(text, new Set(kinds.keys())));
    if (!read.ok) throw new Error(read.issues[0]?.message ?? 'the sample cannot be read');
    actions.open(startHistory(read.value.plan));
    // What a finished job gives is seen at once: its runs, strong on the board.
    actions.set({ leg: 'runs' });
  }
  if (kept.unread) download(kept.unread, UNREAD_FILE);
  if (kept.found) actions.say(kept.found, 'warning');
}

/** Files that are dropped beside every target would otherwise take the place of the page. */
function guardDrops(): void {
  for (const type of ['dragover', 'drop'] as const)
    window.addEventListener(type, (event) => event.preventDefault());
}

/** `?sample=cafe` opens a sample over the kept job, as the menu does; the address is plain again afterwards. */
function askedSample(): SampleId | undefined {
  const asked = new URLSearchParams(location.search).get('sample');
  if (asked !== null) history.replaceState(null, '', location.pathname + location.hash);
  return SAMPLES.find((id) => id === asked);
}

/** Shows the whole drawing while the panels round the board still find their places, until somebody does something. */
function fitUntilTouched(session: SessionApi): void {
  const touched = new AbortController();
  for (const type of ['pointerdown', 'wheel', 'keydown'])
    addEventListener(type, () => touched.abort(), { once: true, capture: true });
  const stop = session.subscribe(({ viewport: now }, { viewport: before }) => {
    if (now.width !== before.width || now.height !== before.height) fitPlan(session);
  });
  touched.signal.addEventListener('abort', stop);
}

function showTitle(session: SessionApi): void {
  const show = () => {
    const name = session.getState().history.plan.tables.job.get('job')?.name;
    document.title = name ? `${name} – Dropwise` : 'Dropwise';
  };
  show();
  session.subscribe(show);
}

async function work(root: Root, lostBy: { now: () => void }): Promise<void> {
  const kept = await openKept(`${Date.now()}-${Math.random()}`);
  const session = createSession(kinds, emptyPlan());
  const warn = (message: Message) => session.getState().actions.say(message, 'warning');
  const asked = askedSample();
  await firstPlan(session, kept, asked ?? 'restaurant').catch((error) =>
    warn(error instanceof Trouble ? error.words : unforeseen(error)),
  );
  const surveys = createSurveyClient(openWorker);
  const surveying = surveyAlong(session, surveys);
  const stopLooking = overheadAlong(session, surveys);
  const parts = { session, kinds, assets: kept.assets, surveys, surveying, now: () => new Date() };
  const services = createServices(parts);
  const pictures = createPictureSource(kept.assets, warn);
  const stopReading = underlayAlong(session, pictures, readUnder);
  root.render(<App session={session} kinds={kinds} services={services} pictures={pictures} />);
  fitUntilTouched(session);
  showTitle(session);
  let stopKeeping = (): void => undefined;
  lostBy.now = () => {
    stopKeeping();
    surveying.stop();
    stopLooking();
    stopReading();
    root.render(<Elsewhere lost />);
  };
  addEventListener('unhandledrejection', (event) => warn(unforeseen(event.reason)));
  stopKeeping = await keepFrom(session, kept, () => lostBy.now());
  if (asked && kept.history) await services.openSample(asked);
}

async function start(): Promise<void> {
  guardDrops();
  const root = createRoot(document.getElementById('root')!);
  const lostBy = { now: () => root.render(<Elsewhere lost />) };
  if (await holdJob(() => lostBy.now())) await work(root, lostBy);
  else root.render(<Elsewhere lost={false} />);
}

void start();
