import { expect, test } from 'vitest';
import { renderMessage } from '../../../src/base/message.ts';
import { closetWords } from '../../../src/results/closet-words.ts';
import type { ClosetGain, PassedOver } from '../../../src/results/types.ts';
import { planWith } from '../takeoff/make-run.ts';

const jack = (label: string) => ({ outlet: 'O1', label });
const plan = planWith({
  zones: {
    Z1: {
      level: 'L1',
      outline: [
        [0, 0],
        [9000, 0],
        [9000, 9000],
      ],
      name: 'Bar',
      area: 'B',
    },
  },
  jacks: { J1: jack('B2'), J2: jack('A10'), J3: jack('A2') },
});
const gain: ClosetGain = {
  level: 'L1',
  at: [6000, 3000],
  zone: 'Z1',
  height: 1500,
  saves: 12_500,
  nearer: ['J1', 'J2', 'J3'],
  relieved: ['J1', 'J2'],
  link: 30_000,
};
const said = (best: ClosetGain | null, places = 9, passed: PassedOver | null = null) =>
  closetWords(plan, { places, best, passed }).map((message) => renderMessage(message, 'm'));

test('one more closet is said by its room, its saving, the runs that come under their limit, and its link', () => {
  const words = said(gain).join(' ');
  expect(words).toContain('the middle of Bar.');
  expect(words).toContain('3 runs would go there and take 12.50 m less cable in all.');
  expect(words).toContain('2 runs would come under the limit: A10, B2.');
  expect(words).toContain('with a path of 30.00 m to the nearest, is not counted');
  expect(words).toContain('9 places were looked at');
});

test('a place without a room, a run, a relief or a link is said as such', () => {
  const words = said({ ...gain, zone: null, nearer: ['J1'], relieved: [], link: null }).join(' ');
  expect(words).toContain('amid the jacks.');
  expect(words).toContain('1 run would');
  expect(words).toContain('No run would come under its limit');
  expect(words).toContain('No way leads from there');
});

test('nothing to gain and nothing to look at are told apart', () => {
  expect(said(null)[0]).toContain('would save no cable');
  expect(said(null, 0)).toHaveLength(1);
});

test('a better place that was passed over is named, with what speaks against it', () => {
  const over: PassedOver = { gain: { ...gain, saves: 15_000 }, unfit: 'cold' };
  const words = said({ ...gain, zone: null }, 9, over).join(' ');
  expect(words).toContain(
    'Bar would save 2.50 m more, but is passed over: it looks like a cold room',
  );
  const none = said(null, 9, { ...over, unfit: 'wet' });
  expect(none[0]).toContain('only in rooms that are no place for one');
  expect(none[1]).toContain('Bar would save 15.00 m more');
  const [, asked] = said(null, 9, { ...over, unfit: 'said' });
  expect(asked).toContain('but is passed over: somebody said that none may stand there.');
});
