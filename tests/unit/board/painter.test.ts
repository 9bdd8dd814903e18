import { describe, expect, it } from 'vitest';
import { fadedPalette } from '../../../src/board/canvas/faded.ts';
import { type Paint, planFrame, SCREEN } from '../../../src/board/canvas/paint.ts';
import { paintMarks } from '../../../src/board/canvas/painter.ts';
import { type Mark, WHOLE } from '../../../src/drawing/display.ts';
import { PALETTES } from '../../../src/drawing/palette.ts';

type Call = readonly [name: string, ...args: unknown[]];

const DRAWN = ['fill', 'fillRect', 'stroke', 'fillText', 'strokeText', 'drawImage'];

/** A drawing context that notes what is called and what it is set to at the time. */
function recorder(): { context: CanvasRenderingContext2D; calls: Call[] } {
  const calls: Call[] = [];
  const saved: Record<string, unknown>[] = [];
  const state: Record<string, unknown> = {
    globalAlpha: 1,
    globalCompositeOperation: 'source-over',
    getTransform: () => ({ a: 2, b: 0 }),
  };
  const context = new Proxy(state, {
    get(target, name: string) {
      if (name in target) return target[name];
      return (...args: unknown[]) => {
        if (name === 'save') saved.push({ ...target });
        if (name === 'restore') Object.assign(target, saved.pop());
        const drawn = DRAWN.includes(name);
        calls.push([name, ...args, ...(drawn ? [{ ...target }] : [])]);
      };
    },
    set(target, name: string, value) {
      target[name] = value;
      return true;
    },
  });
  return { context: context as unknown as CanvasRenderingContext2D, calls };
}

const view = { scale: 0.1, left: 1000, top: 2000 };

function paint(marks: readonly Mark[], more: Partial<Paint> = {}) {
  const { context, calls } = recorder();
  const board: Paint = {
    context,
    palette: PALETTES.light,
    paper: 4,
    strength: 1,
    width: 800,
    height: 600,
    picture: () => [],
    ...more,
  };
  paintMarks(board, marks, planFrame(view));
  return calls;
}

const named = (calls: readonly Call[], name: string) => calls.filter((call) => call[0] === name);
const state = (call: Call | undefined) => call?.at(-1) as Record<string, unknown>;

describe('The painter', () => {
  it('draws a line of the plan at its place, in its ink, as wide as on paper', () => {
    const calls = paint([
      {
        op: 'line',
        points: [
          [1000, 2000],
          [3000, 2500],
        ],
        style: { stroke: 'cable', width: 0.5 },
      },
    ]);
    expect(named(calls, 'moveTo')).toEqual([['moveTo', 0, 0]]);
    expect(named(calls, 'lineTo')).toEqual([['lineTo', 200, 50]]);
    const stroke = state(named(calls, 'stroke')[0]);
    expect(stroke.strokeStyle).toBe(PALETTES.light.cable);
    expect(stroke.lineWidth).toBe(2);
  });

  it('keeps symbols at paper size whatever the zoom', () => {
    const symbol: Mark = {
      op: 'symbol',
      at: [2000, 3000],
      marks: [{ op: 'circle', at: [1, 0], radius: 2, style: { fill: 'ink' } }],
    };
    expect(named(paint([symbol]), 'arc')[0]?.slice(1, 4)).toEqual([104, 100, 8]);
  });

  it('turns a symbol clockwise', () => {
    const symbol: Mark = {
      op: 'symbol',
      at: [2000, 3000],
      turn: 90,
      marks: [{ op: 'circle', at: [1, 0], radius: 2, style: { fill: 'ink' } }],
    };
    const [, x, y] = named(paint([symbol]), 'arc')[0] as [string, number, number];
    expect([x, y].map((v) => Math.round(v))).toEqual([100, 104]);
  });

  it('places a group by its own unit', () => {
    const group: Mark = {
      op: 'group',
      at: [2000, 3000],
      scale: 100,
      marks: [{ op: 'circle', at: [2, 1], radius: 1, style: { fill: 'ink' } }],
    };
    expect(named(paint([group]), 'arc')[0]?.slice(1, 4)).toEqual([120, 110, 10]);
  });

  it('fills, then hatches inside the shape, then outlines', () => {
    const calls = paint([
      {
        op: 'line',
        closed: true,
        points: [
          [1000, 2000],
          [3000, 2000],
          [3000, 4000],
          [1000, 4000],
        ],
        style: { fill: 'tint-0', stroke: 'faint', width: 0.13, hatch: 'diagonal' },
      },
    ]);
    const order = calls
      .map((call) => call[0])
      .filter((n) => ['fill', 'clip', 'stroke'].includes(n));
    expect(order).toEqual(['fill', 'clip', 'stroke', 'stroke']);
    // The hatch is many lines, the outline four.
    expect(named(calls, 'moveTo').length).toBeGreaterThan(5);
  });

  it('writes text with its halo beneath, the capitals round the middle', () => {
    const calls = paint([
      {
        op: 'text',
        at: [2000, 3000],
        text: 'B1',
        size: 3,
        face: 'mono',
        bold: true,
        ink: 'ink',
        align: 'centre',
        vertical: 'middle',
        halo: 'paper',
      },
    ]);
    const text = calls.filter(([n]) => n === 'strokeText' || n === 'fillText');
    expect(text.map(([n]) => n)).toEqual(['strokeText', 'fillText']);
    expect(text[1]?.slice(1, 3)).toEqual(['B1', 100]);
    expect(text[1]?.[3]).toBeCloseTo(100 + (0.668 / 2) * 12);
    const set = state(text[1]);
    expect(set.font).toMatch(/^700 12px "Atkinson Hyperlegible Mono"/);
    expect(set.fontKerning).toBe('none');
    expect(set.textAlign).toBe('center');
  });

  it('leaves out what lies outside of the board, and type too small to read', () => {
    const far: Mark = {
      op: 'line',
      points: [
        [90_000, 0],
        [95_000, 0],
      ],
      style: { stroke: 'ink' },
    };
    const tiny: Mark = { op: 'text', at: [2000, 3000], text: 'A', size: 0.5, ink: 'ink' };
    expect(paint([far, tiny])).toEqual([]);
  });

  it('draws a turned picture into the box that it is seen in, faded twice', () => {
    const image = { width: 20, height: 10 } as unknown as ImageBitmap;
    const picture: Mark = {
      op: 'picture',
      at: [2000, 3000],
      width: 2000,
      height: 1000,
      turn: 90,
      opacity: 0.6,
      asset: 'a',
    };
    const calls = paint([picture], { picture: () => [{ image, part: WHOLE }], strength: 0.5 });
    // Seen 1000 wide and 2000 high: the middle is 50 px right and 100 px below the corner.
    expect(named(calls, 'translate')[0]).toEqual(['translate', 150, 200]);
    expect(named(calls, 'rotate')[0]).toEqual(['rotate', Math.PI / 2]);
    const drawn = named(calls, 'drawImage')[0]!;
    expect(drawn.slice(2, 10)).toEqual([0, 0, 20, 10, -100, -50, 200, 100]);
    expect(state(drawn).globalAlpha).toBeCloseTo(0.3);
  });

  /** 2000 by 1000 mm at the corner of the view: 200 by 100 px from (100, 100). */
  const plain: Mark = {
    op: 'picture',
    at: [2000, 3000],
    width: 2000,
    height: 1000,
    turn: 0,
    opacity: 0.5,
    asset: 'a',
  };
  const sized = (width: number, height: number) => ({ width, height }) as unknown as ImageBitmap;

  it('draws only the shown part of a picture, tilted about the middle of all of it', () => {
    const part = { x0: 0.25, y0: 0.5, x1: 0.75, y1: 1 };
    const calls = paint([{ ...plain, part, tilt: 30 }], {
      picture: () => [{ image: sized(1000, 500), part: WHOLE }],
    });
    expect(named(calls, 'translate')[0]).toEqual(['translate', 200, 150]);
    expect(named(calls, 'rotate')[0]![1]).toBeCloseTo(Math.PI / 6, 12);
    expect(named(calls, 'drawImage')[0]!.slice(2, 10)).toEqual([
      250, 250, 500, 250, -50, 0, 100, 50,
    ]);
  });

  it('draws a finer part in the place of what it covers, each place once', () => {
    const fine = { x0: 0.2, y0: 0.2, x1: 0.6, y1: 0.7 };
    const calls = paint([plain], {
      picture: () => [
        { image: sized(100, 50), part: WHOLE },
        { image: sized(800, 500), part: fine },
      ],
    });
    const boxes = named(calls, 'drawImage').map((call) => call.slice(6, 10) as number[]);
    const area = boxes.reduce((sum, [, , w, h]) => sum + w! * h!, 0);
    expect(area).toBeCloseTo(200 * 100, 6);
    expect(boxes.at(-1)!.map((n) => Math.round(n * 1e6) / 1e6)).toEqual([-60, -30, 80, 50]);
    expect(named(calls, 'drawImage').at(-1)!.slice(2, 6)).toEqual([0, 0, 800, 500]);
  });

  it('paints the negative of a picture in the dark: what lies there is inverted before it and again after it', () => {
    const picture = () => [{ image: sized(1000, 500), part: WHOLE }];
    const tilted = { ...plain, at: [2003, 3000] as const, tilt: 90 };
    const calls = paint([tilted], { picture, negative: true });
    const told = calls.map(([name]) => name).filter((name) => !/save|restore/.test(name));
    expect(told).toEqual(['fillRect', 'translate', 'rotate', 'drawImage', 'fillRect']);
    const [before, after] = named(calls, 'fillRect');
    // On its side it takes 100 by 200 px about its middle; the box is rounded outwards to whole
    // pixels of the canvas, of which there are two to one of the screen.
    expect(before!.slice(1, 5)).toEqual([150, 50, 100.5, 200]);
    for (const call of [before, after])
      expect(state(call)).toMatchObject({
        globalCompositeOperation: 'difference',
        globalAlpha: 1,
        fillStyle: '#ffffff',
      });
    expect(after!.slice(1, 5)).toEqual(before!.slice(1, 5));
    expect(state(named(calls, 'drawImage')[0]).globalCompositeOperation).toBe('source-over');
    expect(named(paint([tilted], { picture }), 'fillRect')).toEqual([]);
    // A photo keeps its colours.
    const photo = [{ ...tilted, photo: true as const }];
    expect(named(paint(photo, { picture, negative: true }), 'fillRect')).toEqual([]);
    expect(named(paint([tilted], { negative: true }), 'fillRect')).toEqual([]);
  });

  it('asks for a picture by what is seen of it, in pixels of the screen, and for none that is not seen', () => {
    const wants: unknown[] = [];
    const picture: Paint['picture'] = (want) => {
      wants.push(want);
      return [];
    };
    paint([{ ...plain, at: [500, 1500] }], { picture });
    // A quarter of its width lies left of the board, a half of its height above it.
    expect(wants).toEqual([
      {
        key: 'a',
        place: '500,1500',
        seen: { x0: 0.25, y0: 0.5, x1: 1, y1: 1 },
        width: 400,
        height: 200,
      },
    ]);
    paint([{ ...plain, at: [-5000, 0] }], { picture });
    expect(wants).toHaveLength(1);
  });

  it('draws the border of a picture that has not come yet', () => {
    const picture: Mark = {
      op: 'picture',
      at: [2000, 3000],
      width: 2000,
      height: 1000,
      turn: 0,
      opacity: 1,
      asset: 'a',
    };
    const calls = paint([picture]);
    expect(named(calls, 'translate')).toEqual([['translate', 200, 150]]);
    expect(named(calls, 'strokeRect')).toEqual([['strokeRect', -100, -50, 200, 100]]);
  });

  it('draws on the screen itself in its own pixels', () => {
    const { context, calls } = recorder();
    const board: Paint = {
      context,
      palette: PALETTES.dark,
      paper: 4,
      strength: 1,
      width: 800,
      height: 600,
      picture: () => [],
    };
    paintMarks(
      board,
      [
        {
          op: 'line',
          points: [
            [5, 6],
            [7, 8],
          ],
          style: { stroke: 'ink' },
        },
      ],
      SCREEN,
    );
    expect(named(calls, 'moveTo')).toEqual([['moveTo', 5, 6]]);
  });
});

describe('Faded inks', () => {
  it('stay solid, and lie between the ink and the paper', () => {
    const half = fadedPalette('light', 0.5);
    expect(half.ink).toBe('#8a8f92');
    expect(half.paper).toBe(PALETTES.light.paper);
    expect(fadedPalette('light', 1)).toBe(PALETTES.light);
  });
});
