import { offersOn } from '../board/offers.ts';
import type { SessionApi, SessionStore } from '../board/session.ts';
import { tools } from '../board/tools/index.ts';
import { pictureKey } from '../drawing/display.ts';
import { hasScale, inLayers } from '../plan/picture-place.ts';
import type { Background } from '../plan/plan.ts';
import type { UnderSheet } from '../results/underlay.ts';
import { placementOf } from './pictures/page-placed.ts';
import type { LineSource } from './pictures/source.ts';
import type { UnderAsk, UnderFound, UnderPage } from './pictures/under-protocol.ts';

/** The tool that takes over walls; the others want lines alone. */
const TAKES = 'trace';
/** Answers that are kept, so that nothing is read again when a tool is put away and taken up. */
const MOST = 6;

const NONE = new Float64Array();

/** What is wanted of the backgrounds now: their lines, their walls too, or nothing. */
function wanted({ tool, snapping, snapsUnder, shown }: SessionStore): 'lines' | 'walls' | null {
  if (tool === TAKES) return 'walls';
  const registered = tools.get(tool);
  const snaps = registered?.snaps(registered.start).includes('under-line') ?? false;
  return snaps && snapping && snapsUnder && shown.background ? 'lines' : null;
}

/**
 * Reads what the backgrounds of the level draw once a tool is in hand that wants it, away from the screen, and puts it
 * into the session. Says why where no walls can be taken over.
 *
 * @returns a function that stops it
 */
export function underlayAlong(
  session: SessionApi,
  source: LineSource,
  read: (ask: UnderAsk) => Promise<UnderFound>,
): () => void {
  const { actions } = session.getState();
  const pages = keepFew<Promise<UnderPage | null>>();
  const answers = keepFew<Promise<UnderFound | null>>();
  let asked = '';
  /** The notice that says why no walls are offered, while it may still hold. */
  let said: number | null = null;

  const pageOf = ({ asset, page }: Background) =>
    pages(pictureKey(asset, page), () => source.lines(pictureKey(asset, page)));

  /** Null for a picture that is made of dots. */
  const answerOf = (picture: Background, walls: boolean): Promise<UnderFound | null> =>
    answers(`${keyOf(picture)} ${walls}`, async () => {
      const page = await pageOf(picture);
      return page && read({ page, place: placementOf(picture), walls });
    });

  async function ask(pictures: readonly Background[], walls: boolean, key: string): Promise<void> {
    const { level } = session.getState();
    if (said !== null) actions.dismiss(said);
    said = null;
    const sheets = pictures.map(
      ({ id }): UnderSheet => ({ background: id, state: 'reading', lines: NONE, found: null }),
    );
    actions.set({ under: { level, sheets: [...sheets] } });
    for (const [i, picture] of pictures.entries()) {
      const sheet = await sheetOf(picture, () => answerOf(picture, walls && hasScale(picture)));
      if (asked !== key) return;
      sheets[i] = sheet;
      actions.set({ under: { level, sheets: [...sheets] } });
    }
    if (!walls) return;
    const { under, history } = session.getState();
    const { trouble } = offersOn(under, history.plan, level);
    if (!trouble) return;
    actions.say(trouble, 'warning');
    said = session.getState().notices.at(-1)?.id ?? null;
  }

  function look(now: SessionStore, before: SessionStore | null): void {
    const wants = wanted(now);
    if (wants === null) {
      asked = '';
      return;
    }
    const shown = now.shown.background ? inLayers(now.history.plan, now.level) : [];
    const pictures = shown.filter(({ hidden }) => !hidden);
    const key = [wants, now.level, ...pictures.map((picture) => picture.id + keyOf(picture))].join(
      ' ',
    );
    if (key === asked && now.opened === before?.opened) return;
    asked = key;
    void ask(pictures, wants === 'walls', key);
  }

  return session.subscribe(look);
}

async function sheetOf(
  { id: background }: Background,
  answer: () => Promise<UnderFound | null>,
): Promise<UnderSheet> {
  try {
    const found = await answer();
    return found
      ? { background, state: 'read', ...found }
      : { background, state: 'pixels', lines: NONE, found: null };
  } catch {
    // Whoever wants walls is told; for whoever draws the lines do not act.
    return { background, state: 'failed', lines: NONE, found: null };
  }
}

/** Whatever the lines of a background follow from. */
function keyOf(picture: Background): string {
  const { asset, page, width, height, origin, mmPerPixel, turn, tilt, crop } = picture;
  const scaled = hasScale(picture);
  return JSON.stringify([asset, page, width, height, origin, mmPerPixel, turn, tilt, crop, scaled]);
}

/** Makes things by their keys, and keeps the newest few of them; one that fails is not kept. */
function keepFew<T extends Promise<unknown>>(): (key: string, make: () => T) => T {
  const kept = new Map<string, T>();
  return (key, make) => {
    const there = kept.get(key);
    if (there) return there;
    const made = make();
    kept.set(key, made);
    made.catch(() => kept.delete(key));
    const [oldest] = kept.keys();
    if (kept.size > MOST && oldest !== undefined) kept.delete(oldest);
    return made;
  };
}
