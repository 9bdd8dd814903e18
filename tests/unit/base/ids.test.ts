import { expect, it } from 'vitest';
import { nextId } from '../../../src/base/ids.ts';

it.each([
  [[], 'W1'],
  [['W1', 'W7', 'W3'], 'W8'],
  [['X9', 'Wall', 'W-4', 'W2'], 'W3'],
  [['W1', 'W1000000000000'], 'W2'],
  [['W1', 'W9007199254740991', 'W9007199254740992'], 'W2'],
] as const)('the next id after %j is %s', (taken, next) => {
  expect(nextId('W', taken)).toBe(next);
});

it('is another each time, whatever a file has used', () => {
  const taken = ['W1', 'W999999999999', 'W9007199254740991'];
  for (let i = 0; i < 5; i++) taken.push(nextId('W', taken));
  expect(new Set(taken).size).toBe(taken.length);
});
