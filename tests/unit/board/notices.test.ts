import { expect, it } from 'vitest';
import { msg, renderMessage } from '../../../src/base/message.ts';
import { startHistory } from '../../../src/plan/history.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { drive } from './driver.ts';

const said = (d: ReturnType<typeof drive>) =>
  d.state().notices.map(({ message }) => renderMessage(message, 'ft'));

it('tells only the newest of one sort, whatever its numbers', () => {
  const d = drive();
  const { say } = d.state().actions;
  for (const count of [3, 4]) say(msg('{count} labels changed.', { count }));
  say(msg('Saved as “{name}”.', { name: 'a.json' }));
  expect(said(d)).toEqual(['4 labels changed.', 'Saved as “a.json”.']);
});

it('counts the walls that rooms use in one notice, be it one wall or several', () => {
  const d = drive({ tool: 'room', option: 'walls' });
  d.play('drag 0,0 4000,3000 · drag 4000,0 8000,3000 · drag 4000,3000 8000,6000');
  d.play('drag 0,3000 4000,6000');
  expect(said(d)).toEqual(['The room uses 2 walls already there.']);
});

it('keeps warnings of different things beside each other', () => {
  const d = drive();
  const { say } = d.state().actions;
  for (const name of ['a', 'b', 'a']) say(msg('“{name}” is empty.', { name }), 'warning');
  expect(said(d)).toEqual(['“b” is empty.', '“a” is empty.']);
});

it('leaves nothing of the job before standing over another one', () => {
  const d = drive();
  d.state().actions.say(msg('Said of the job before.'), 'warning');
  d.state().actions.open(startHistory(emptyPlan()));
  expect(said(d)).toEqual([]);
});
