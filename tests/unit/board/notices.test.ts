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

it('keeps what is of another sort, and the newest of refusals that are alike', () => {
  const d = drive();
  const { say } = d.state().actions;
  say(msg('This job could not be saved.'), 'warning');
  for (const count of [4, 2])
    say(msg('The walls round this place leave {count} gaps.', { count }), 'warning');
  expect(said(d)).toEqual([
    'This job could not be saved.',
    'The walls round this place leave 2 gaps.',
  ]);
});

it('drops why something was not done once something is, and keeps other warnings', () => {
  const d = drive({ tool: 'fill-room' });
  d.state().actions.say(msg('This job could not be saved.'), 'warning');
  d.play('click 0,0');
  expect(said(d)).toHaveLength(2);
  d.play('key n · click 500,500');
  expect(d.plan().tables.closets.size).toBe(1);
  expect(said(d)).toEqual(['This job could not be saved.']);
});

it('leaves nothing of the job before standing over another one', () => {
  const d = drive();
  d.state().actions.say(msg('Said of the job before.'), 'warning');
  d.state().actions.open(startHistory(emptyPlan()));
  expect(said(d)).toEqual([]);
});
