import { describe, expect, it } from 'vitest';
import { fadedPalette } from '../../../src/board/canvas/faded.ts';
import { type Paint, paintMarks, planFrame, SCREEN } from '../../../src/board/canvas/painter.ts';
import type { Mark } from '../../../src/drawing/display.ts';
import { PALETTES } from '../../../src/drawing/palette.ts';

type Call = readonly [name: string, ...args: unknown[]];

/** A drawing context that notes what is called and what it is set to at the time. */
function recorder(): { context: CanvasRenderingContext2D; calls: Call[] } {
  const calls: Call[] = [];
  const state: Record<string, unknown> = { globalAlpha: 1 };
  const context = new Proxy(state, {
    get(target, name: string) {
      if (name in target) return target[name];
      return (...args: unknown[]) => {
        const drawn = ['fill', 'stroke', 'fillText', 'strokeText', 'drawImage'].includes(name);
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
    picture: () => null,
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
    const image = { width: 20, height: 10 } as unknown as CanvasImageSource;
    const picture: Mark = {
      op: 'picture',
      at: [2000, 3000],
      width: 2000,
      height: 1000,
      turn: 90,
      opacity: 0.6,
      asset: 'a',
    };
    const calls = paint([picture], { picture: () => image, strength: 0.5 });
    // Seen 1000 wide and 2000 high: the middle is 50 px right and 100 px below the corner.
    expect(named(calls, 'translate')[0]).toEqual(['translate', 150, 200]);
    expect(named(calls, 'rotate')[0]).toEqual(['rotate', Math.PI / 2]);
    const drawn = named(calls, 'drawImage')[0]!;
    expect(drawn.slice(2, 6)).toEqual([-100, -50, 200, 100]);
    expect(state(drawn).globalAlpha).toBeCloseTo(0.3);
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
    expect(named(paint([picture]), 'strokeRect')).toEqual([['strokeRect', 100, 100, 200, 100]]);
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
      picture: () => null,
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
