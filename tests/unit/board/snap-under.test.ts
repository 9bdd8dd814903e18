import { describe, expect, it } from 'vitest';
import { underLines, underNear } from '../../../src/board/snap-under.ts';
import type { Underlay } from '../../../src/results/underlay.ts';
import { drive, picturePlan, planWith } from './driver.ts';

/** A corner of a room on the background: two lines that meet, and a speck. */
const under: Underlay = {
  level: 'L1',
  sheets: [
    {
      background: 'B1',
      state: 'read',
      lines: Float64Array.of(
        1003.4,
        507.6,
        5003.4,
        507.6,
        1003.4,
        507.6,
        1003.4,
        4507.6,
        3000,
        900,
        3040,
        900,
      ),
      found: null,
    },
  ],
};

describe('Snapping to the lines of the background', () => {
  const drawing = (plan = picturePlan()) => {
    const d = drive({ plan, tool: 'wall', snapping: true });
    d.state().actions.set({ under });
    return d;
  };
  const snapped = (d: ReturnType<typeof drive>) => {
    const { at, acts } = d.editor.view().snapped!;
    return { at, kinds: acts.map(({ kind }) => kind) };
  };

  it('takes a place to the end of a line, and says so', () => {
    const d = drawing();
    d.play('move 1040,545');
    expect(snapped(d)).toEqual({ at: [1003, 508], kinds: ['under-end'] });
  });

  it('holds a place on a line', () => {
    const d = drawing();
    d.play('move 2990,540');
    expect(snapped(d).at[1]).toBe(508);
    expect(snapped(d).kinds).toContain('under-line');
  });

  it('leaves letters and specks alone', () => {
    const d = drawing();
    d.play('move 3020,905');
    expect(snapped(d).kinds).toEqual(['grid']);
  });

  it('gives way to the end of a wall that is as near', () => {
    const d = drawing(
      planWith([
        'draw-walls',
        {
          level: 'L1',
          points: [
            [1020, 520],
            [1020, -4000],
          ],
        },
      ]),
    );
    d.play('move 1015,518');
    expect(snapped(d)).toEqual({ at: [1020, 520], kinds: ['end'] });
  });

  it('is put away by its key and by that of all snapping, and with the background', () => {
    const d = drawing();
    for (const key of ['/', 's']) {
      d.play(`key ${key} · move 1042,547`);
      expect(snapped(d).kinds).not.toContain('under-end');
      d.play(`key ${key} · move 1040,545`);
      expect(snapped(d).kinds).toEqual(['under-end']);
    }
    d.state().actions.set({ shown: { ...d.state().shown, background: false } });
    d.play('move 1040,545');
    expect(snapped(d).kinds).not.toContain('under-end');
  });

  it('helps to set the scale along a line of the background', () => {
    const d = drive({ plan: picturePlan(), tool: 'set-scale', snapping: true, answer: null });
    d.state().actions.set({ under });
    d.play('drag 1010,500 4990,515');
    expect(d.asked).toMatchObject([{ a: [1003, 508], b: [5003, 508] }]);
  });

  it('holds along building lines that are turned', () => {
    const d = drawing();
    d.state().actions.run('edit', { table: 'levels', id: 'L1', fields: { frameAngle: 30 } });
    d.play('move 1040,545');
    expect(snapped(d)).toEqual({ at: [1003, 508], kinds: ['under-end'] });
  });

  it('knows the lines of one level alone', () => {
    expect(underNear(underLines(under, 'L1'), [1000, 500], 50, 10)).toHaveLength(2);
    expect(underNear(underLines(under, 'L2'), [1000, 500], 50, 10)).toEqual([]);
    expect(underNear(underLines(null, 'L1'), [1000, 500], 50, 10)).toEqual([]);
  });
});
