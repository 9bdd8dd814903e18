import { expect, test } from 'vitest';
import { unforeseen } from '../../../src/app/files.ts';
import { shutOut } from '../../../src/app/keeping.ts';
import { renderMessage } from '../../../src/base/message.ts';

const named = (name: string, words: string) => Object.assign(new Error(words), { name });

test('a full disk is said as that, and anything else with its reason', () => {
  expect(renderMessage(unforeseen(named('QuotaExceededError', 'x')), 'ft')).toContain(
    'no room left',
  );
  expect(renderMessage(unforeseen(new Error('the wind blew')), 'ft')).toContain('the wind blew');
});

test('a store of a newer version is left alone, and said to be one', () => {
  const words = renderMessage(shutOut(named('VersionError', 'less than 2')), 'ft');
  expect(words).toContain('newer version');
  expect(words).not.toContain('less than');
  expect(renderMessage(shutOut(new Error('no store')), 'ft')).toContain('(no store)');
});
