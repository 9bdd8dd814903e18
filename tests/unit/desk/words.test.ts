import { describe, expect, it } from 'vitest';
import { readWords } from '../../../src/desk/controls/fields.tsx';
import { drive } from '../board/driver.ts';

describe('Words that are longer than a plan can hold', () => {
  const long = 'word '.repeat(2000);

  it('are refused by the field that they are typed into, with the most that it takes', () => {
    expect(readWords(long)).toEqual({ why: 'At most 400 letters.' });
    expect(readWords(`  ${'x'.repeat(400)}  `)).toEqual({ value: 'x'.repeat(400) });
  });

  it('change nothing: the command says why', () => {
    const d = drive({});
    const before = d.text();
    const { actions } = d.state();
    expect(actions.run('place-note', { level: 'L1', at: [0, 0], text: long })).toBe(false);
    const fields = { name: long };
    expect(actions.run('edit', { table: 'job', id: 'job', fields })).toBe(false);
    expect(d.text()).toBe(before);
    expect(d.state().notices.map(({ message }) => message.text)).toContain(
      'A note has at most 400 letters.',
    );
  });
});
