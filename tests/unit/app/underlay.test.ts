import { describe, expect, it, vi } from 'vitest';
import type { UnderAsk, UnderFound } from '../../../src/app/pictures/under-protocol.ts';
import { underlayAlong } from '../../../src/app/underlay.ts';
import { createSession } from '../../../src/board/session.ts';
import { kinds } from '../../../src/kinds/index.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { picturePlan } from '../board/driver.ts';

const PAGE = { width: 100, strokes: new Float64Array(), dashed: new Uint8Array(), fills: [] };
const LINES = Float64Array.of(0, 0, 9, 9);
const settled = () => new Promise((done) => setTimeout(done, 5));

function along(plan: Plan, page: typeof PAGE | null | Error = PAGE) {
  const session = createSession(kinds, plan);
  const lines = vi.fn(async () => {
    if (page instanceof Error) throw page;
    return page;
  });
  const read = vi.fn(
    async ({ walls }: UnderAsk): Promise<UnderFound> => ({
      lines: LINES,
      found: walls ? { offers: [], left: 3 } : null,
    }),
  );
  const stop = underlayAlong(session, { lines }, read);
  const state = () => session.getState();
  return { session, state, lines, read, stop };
}
const words = ({ state }: ReturnType<typeof along>) =>
  state().notices.map(({ message }) => message.text);

describe('The backgrounds of a level', () => {
  it('are not read before a tool is in hand that wants them', async () => {
    const d = along(picturePlan());
    d.state().actions.set({ leg: 'rooms' });
    d.state().actions.pick('device', 'kiosk');
    await settled();
    expect(d.lines).not.toHaveBeenCalled();
    expect(d.state().under).toBeNull();
  });

  it('are read for their lines alone while something is drawn, once', async () => {
    const d = along(picturePlan({ ratio: 48, paper: 400 }));
    for (const tool of ['wall', 'select', 'room', 'wall']) {
      d.state().actions.pick(tool);
      await settled();
    }
    expect(d.state().under).toEqual({
      level: 'L1',
      sheets: [{ background: 'B1', state: 'read', lines: LINES, found: null }],
    });
    expect(d.lines).toHaveBeenCalledTimes(1);
    expect(d.read).toHaveBeenCalledTimes(1);
    expect(d.read.mock.calls[0]![0].walls).toBe(false);
    expect(d.state().notices).toEqual([]);
  });

  it('are not read while nothing snaps to them', async () => {
    const d = along(picturePlan());
    d.state().actions.set({ snapsUnder: false });
    d.state().actions.pick('wall');
    await settled();
    expect(d.lines).not.toHaveBeenCalled();
    d.state().actions.set({ snapsUnder: true });
    await settled();
    expect(d.lines).toHaveBeenCalledTimes(1);
  });

  it('are searched for walls once they have a scale; until then a notice says what is missing', async () => {
    const d = along(picturePlan());
    d.state().actions.pick('trace');
    await settled();
    expect(d.read.mock.calls[0]![0].walls).toBe(false);
    expect(words(d)).toEqual([expect.stringMatching(/Set the scale/)]);
    d.state().actions.run('set-scale', { background: 'B1', a: [0, 0], b: [5000, 0], length: 9000 });
    await settled();
    expect(d.read.mock.calls[1]![0].walls).toBe(true);
    expect(d.lines).toHaveBeenCalledTimes(1);
    expect(d.state().under!.sheets[0]!.found).toEqual({ offers: [], left: 3 });
    expect(words(d)).toEqual([expect.stringMatching(/No walls were made out/)]);
  });

  it.each([
    ['made of dots', null, 'pixels', /made of dots/],
    ['gone', new Error('gone'), 'failed', /cannot be read/],
  ] as const)('say so where one is %s', async (_, page, state, notice) => {
    const d = along(picturePlan({ ratio: 48, paper: 400 }), page);
    d.state().actions.pick('trace');
    await settled();
    expect(d.state().under!.sheets).toMatchObject([{ state }]);
    expect(words(d)).toEqual([expect.stringMatching(notice)]);
  });

  it('that are hidden are not read', async () => {
    const d = along(picturePlan({ hidden: true }));
    d.state().actions.pick('trace');
    await settled();
    expect(d.lines).not.toHaveBeenCalled();
    expect(words(d)).toEqual([expect.stringMatching(/hidden/)]);
  });

  it('whose answer comes late say nothing of another job', async () => {
    const d = along(picturePlan());
    let tell: (found: UnderFound) => void = () => undefined;
    d.read.mockImplementationOnce(() => new Promise((done) => (tell = done)));
    d.state().actions.pick('trace');
    await settled();
    d.state().actions.pick('select');
    tell({ lines: LINES, found: null });
    await settled();
    expect(d.state().under!.sheets).toMatchObject([{ state: 'reading' }]);
    expect(d.state().notices).toEqual([]);
    d.stop();
    d.state().actions.pick('trace');
    await settled();
    expect(d.read).toHaveBeenCalledTimes(1);
  });
});
