import { describe, expect, it } from 'vitest';
import { msg, renderMessage } from '../../../src/base/message.ts';

describe('a message', () => {
  it('shows lengths in the units of the job', () => {
    const message = msg('Run {label} is {long}.', { label: 'A3', long: { mm: 3810 } });
    expect(renderMessage(message, 'ft')).toBe('Run A3 is 12\'-6".');
    expect(renderMessage(message, 'm')).toBe('Run A3 is 3.81 m.');
  });

  it('leaves a gap without a value visible', () => {
    expect(renderMessage(msg('Move {what}', {}), 'ft')).toBe('Move {what}');
  });
});
