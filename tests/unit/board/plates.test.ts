import { describe, expect, it } from 'vitest';
import { createDraughter } from '../../../src/board/canvas/draughter.ts';
import type { PlateAnswer, PlateAsk } from '../../../src/board/canvas/plate.ts';
import { MARGIN } from '../../../src/board/canvas/plate.ts';
import { createPlates, type Plate, type Wanted } from '../../../src/board/canvas/plates.ts';
import type { SceneView } from '../../../src/board/scene.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { emptyPlan, makeRow, type Plan } from '../../../src/plan/plan.ts';

const shown = {
  background: true,
  rooms: true,
  counts: true,
  labels: true,
  power: true,
  below: false,
  overview: true,
  ceiling: false,
};
const view: SceneView = { level: 'L1', leg: 'devices', shown, scale: 0.05 };
const place = { scale: 0.05, left: 0, top: 0, width: 400, height: 300 };

/** A plan with devices in a row, from x = 2 m on, every 3 m. */
function rowOf(count: number): Plan {
  const plan = emptyPlan();
  const devices = Array.from({ length: count }, (_, i) => {
    const id = `D${i + 1}`;
    const at: [number, number] = [2000 + 3000 * i, 2000];
    return [id, makeRow('devices', id, { kind: 'order-station', at })] as const;
  });
  return { tables: { ...plan.tables, devices: new Map(devices) } };
}

const withDevice = (plan: Plan, id: string, at: [number, number] | null): Plan => {
  const devices = new Map(plan.tables.devices);
  if (at) devices.set(id, { ...devices.get(id)!, at });
  else devices.delete(id);
  return { tables: { ...plan.tables, devices } };
};

/** A canvas that notes where pictures and letters are put on it. */
function fakeCanvas(width: number, height: number, log: string[]): OffscreenCanvas {
  const context: Record<string, unknown> = new Proxy({} as Record<string, unknown>, {
    get: (set, name: string) =>
      name in set
        ? set[name]
        : (...args: unknown[]) => {
            if (name === 'fillText' || name === 'clearRect' || name === 'drawImage')
              log.push(`${name} ${args.filter((a) => typeof a !== 'object').join(' ')}`);
          },
    set: (set, name: string, value) => {
      set[name] = value;
      return true;
    },
  });
  const canvas = {
    width,
    height,
    getContext: () => context,
    transferToImageBitmap: () => ({ width, height, close: () => undefined }),
  };
  context.canvas = canvas;
  return canvas as unknown as OffscreenCanvas;
}

/** @param slow how much later it is at each look at the clock, ms */
function draughting(slow = 0) {
  let clock = 0;
  const log: string[] = [];
  const answers: PlateAnswer[] = [];
  const waiting: (() => void)[] = [];
  const waits: number[] = [];
  const draughter = createDraughter({
    kinds,
    canvas: (width, height) => fakeCanvas(width, height, log),
    answer: (answer) => answers.push(answer),
    later: (run, ms) => {
      waiting.push(run);
      waits.push(ms);
      return () => waiting.splice(waiting.indexOf(run), 1);
    },
    now: () => {
      clock += slow;
      return clock;
    },
  });
  let id = 0;
  const ask = (more: Partial<PlateAsk>): PlateAnswer => {
    log.length = 0;
    id += 1;
    // As a worker gets it: nothing in it is the same object as in the ask before.
    const asked: PlateAsk = { id, rows: [], view, place, theme: 'light', ratio: 1, ...more };
    draughter(structuredClone(asked));
    return answers.at(-1)!;
  };
  const rest = () => {
    for (const run of waiting.splice(0)) run();
    return answers.at(-1)!;
  };
  return { ask, rest, log, answers, waits };
}

const sent = (plan: Plan) =>
  (['job', 'levels', 'devices'] as const).flatMap((table) =>
    [...plan.tables[table]].map(([id, row]) => ({ table, id, row })),
  );

describe('The draughter', () => {
  it('answers with the drawing and a margin round it, and says where symbols stand', () => {
    const { ask, log } = draughting();
    const answer = ask({ rows: sent(rowOf(3)), survey: null });
    expect(answer.place).toEqual({
      scale: 0.05,
      left: -MARGIN / 0.05,
      top: -MARGIN / 0.05,
      width: 400 + 2 * MARGIN,
      height: 300 + 2 * MARGIN,
    });
    expect(answer.drawn?.get('devices/D1')).toEqual([2000, 2000]);
    expect(log.filter((call) => call.startsWith('fillText OS'))).toHaveLength(3);
  });

  it('paints only the strip that comes into view when the view moves', () => {
    const { ask, log } = draughting();
    ask({ rows: sent(rowOf(3)), survey: null });
    const answer = ask({ place: { ...place, left: 200, top: -100 } });
    expect(answer.place.left).toBeCloseTo(200 - MARGIN / 0.05);
    expect(log.filter((call) => call.startsWith('clearRect'))).toEqual([
      `clearRect ${400 + 2 * MARGIN - 10} 0 10 ${300 + 2 * MARGIN}`,
      `clearRect 0 0 ${400 + 2 * MARGIN} 5`,
    ]);
    expect(log.filter((call) => call.startsWith('fillText'))).toEqual([]);
  });

  it('leaves out at once what has changed, and lays it out anew when nobody asks', () => {
    const { ask, rest, log, answers } = draughting();
    const plan = rowOf(3);
    ask({ rows: sent(plan), survey: null });
    const moved = withDevice(plan, 'D2', [2000, 5000]);
    const first = ask({
      rows: [{ table: 'devices', id: 'D2', row: moved.tables.devices.get('D2')! }],
    });
    expect([first.laid, [...first.hidden]]).toEqual([1, ['devices/D2']]);
    expect(log.filter((call) => call.startsWith('fillText OS'))).toHaveLength(2);
    rest();
    const then = rest();
    expect(answers).toHaveLength(3);
    expect([then.laid, then.hidden.size]).toEqual([2, 0]);
    expect(then.drawn?.get('devices/D2')).toEqual([2000, 5000]);
  });

  it('paints what is asked for while a layout is under way, and hides what changed meanwhile', () => {
    const { ask, rest, answers } = draughting(20);
    const plan = rowOf(3);
    ask({ rows: sent(plan), survey: null });
    ask({ view: { ...view, scale: 0.06 } });
    rest();
    expect(answers).toHaveLength(2);
    const moved = withDevice(plan, 'D2', [2000, 5000]);
    const zoomed = ask({
      rows: [{ table: 'devices', id: 'D2', row: moved.tables.devices.get('D2')! }],
      view: { ...view, scale: 0.07 },
      place: { ...place, scale: 0.07 },
    });
    expect([zoomed.laid, zoomed.place.scale]).toEqual([1, 0.07]);
    const next = () => {
      const { laid } = answers.at(-1)!;
      for (let n = 0; n < 100; n++) if (rest().laid !== laid) return answers.at(-1)!;
      throw new Error('no layout came');
    };
    const second = next();
    expect([second.id, second.laid, [...second.hidden]]).toEqual([3, 2, ['devices/D2']]);
    const third = next();
    expect([third.id, third.laid, third.hidden.size]).toEqual([3, 3, 0]);
    expect(third.drawn?.get('devices/D2')?.map(Math.round)).toEqual([2000, 5000]);
    expect(rest()).toBe(third);
  });

  it('puts the layout off while views are asked for, but not for ever', () => {
    const { ask, rest, waits } = draughting(20);
    ask({ rows: sent(rowOf(3)), survey: null });
    ask({ view: { ...view, scale: 0.06 } });
    rest();
    expect(waits.at(-1)).toBe(0);
    const off: number[] = [];
    for (let n = 1; n < 100; n++) {
      ask({ view: { ...view, scale: 0.06 }, place: { ...place, left: n } });
      off.push(waits.at(-1)!);
    }
    expect([off[0], off.at(-1)]).toEqual([50, 0]);
  });

  it('paints a view that came with the end of a layout first, and from that layout', () => {
    const { ask, rest, answers } = draughting();
    ask({ rows: sent(rowOf(3)), survey: null });
    ask({ view: { ...view, scale: 0.06 } });
    // Laid out to its end, and not painted yet.
    rest();
    expect(answers).toHaveLength(2);
    expect(ask({ view: { ...view, scale: 0.06 }, place: { ...place, left: 9 } }).laid).toBe(2);
    rest();
    expect(answers).toHaveLength(3);
  });

  it('drops a layout that is under way for another drawing', () => {
    const { ask, rest, answers } = draughting(20);
    ask({ rows: sent(rowOf(3)), survey: null });
    ask({ view: { ...view, scale: 0.06 } });
    rest();
    expect(ask({ view: { ...view, leg: 'runs', scale: 0.06 } }).laid).toBe(3);
    for (let n = 0; n < 50; n++) rest();
    expect(answers).toHaveLength(3);
  });

  it('stamps a symbol that many share: its letters are painted once', () => {
    const { ask, log } = draughting();
    ask({ rows: sent(rowOf(5)), survey: null });
    expect(log.filter((call) => call.startsWith('fillText OS'))).toHaveLength(1);
    expect(log.filter((call) => call.startsWith('drawImage')).length).toBeGreaterThanOrEqual(5);
  });

  it('lays out at once what is another drawing and not an older one', () => {
    const { ask } = draughting();
    ask({ rows: sent(rowOf(3)), survey: null });
    expect(ask({ view: { ...view, leg: 'runs' } }).laid).toBe(2);
    expect(ask({ view: { ...view, leg: 'runs', scale: 0.06 } }).laid).toBe(2);
  });
});

describe('Plates', () => {
  function asking() {
    const asks: PlateAsk[] = [];
    let answered: (answer: PlateAnswer) => void = () => undefined;
    const closed: number[] = [];
    const plates = createPlates(
      (on) => {
        answered = on;
        return { post: (ask) => asks.push(ask), close: () => undefined };
      },
      () => undefined,
    );
    const answer = (id: number, more: Partial<PlateAnswer> = {}) =>
      answered({
        id,
        laid: id,
        bitmap: { width: 1, close: () => closed.push(id) } as unknown as ImageBitmap,
        place,
        ratio: 1,
        hidden: new Set(),
        drawn: new Map(),
        ...more,
      });
    return { plates, asks, answer, closed };
  }
  const want = (plan: Plan, left = 0): Wanted => ({
    plan,
    survey: null,
    view,
    place: { ...place, left },
    theme: 'light',
    ratio: 1,
  });

  it('are asked for one at a time, the newest next', () => {
    const { plates, asks, answer } = asking();
    const wanted = [0, 1, 2, 3].map((left) => want(rowOf(1), left));
    for (const one of wanted) expect(plates.get(one)).toBeNull();
    expect(asks.map((ask) => ask.place.left)).toEqual([0]);
    answer(1);
    expect(asks.map((ask) => ask.place.left)).toEqual([0, 3]);
    // The same again is not asked for.
    plates.get(wanted[3]!);
    answer(2);
    expect(asks).toHaveLength(2);
  });

  it('send only the rows that changed', () => {
    const { plates, asks, answer } = asking();
    const plan = rowOf(3);
    plates.get(want(plan));
    answer(1);
    plates.get(want(withDevice(plan, 'D3', null)));
    expect(asks[1]!.rows).toEqual([{ table: 'devices', id: 'D3', row: null }]);
  });

  it('name the plan that they are laid out for, without what they leave out', () => {
    const { plates, answer, closed } = asking();
    const before = rowOf(3);
    const now = want(withDevice(before, 'D3', [9000, 9000]));
    plates.get(want(before));
    answer(1);
    plates.get(now);
    answer(2, { laid: 1, hidden: new Set(['devices/D3']) });
    const plate = plates.get(now) as Plate;
    expect([...plate.plan.tables.devices.keys()]).toEqual(['D1', 'D2']);
    answer(2);
    expect((plates.get(now) as Plate).plan).toBe(now.plan);
    expect(closed).toEqual([1, 2]);
  });
});
