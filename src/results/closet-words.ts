import { compareLabels } from '../base/labels.ts';
import { type Message, msg } from '../base/message.ts';
import type { Plan } from '../plan/plan.ts';
import type { ClosetGain, ClosetStudy, PassedOver } from './types.ts';

/** Most labels that are listed one by one. */
const MOST = 12;

const runsWord = (count: number): string => (count === 1 ? 'run' : 'runs');

/**
 * What one more closet would do, in sentences, for the screen and the command line alike: where, what it saves, which
 * runs come under their limit, and what is not counted.
 *
 * @param plan the plan that was studied
 */
export function closetWords(plan: Plan, { places, best, passed }: ClosetStudy): Message[] {
  if (places === 0)
    return [
      msg('There is no run yet that is free to go to another closet, so no place was looked at.'),
    ];
  const looked = msg(
    places === 1
      ? 'One place was looked at.'
      : '{places} places were looked at: the middle of each room, or a grid over the jacks where no room is drawn.',
    { places },
  );
  const over = passed ? [passedWords(plan, passed, best)] : [];
  if (!best) return [passed ? NOWHERE : NOTHING, ...over, looked];
  return [
    whereWords(plan, best),
    savesWords(best),
    relievedWords(plan, best),
    linkWords(best),
    ...over,
    looked,
  ];
}

const NOTHING = msg('One more closet would save no cable at any of the places.');
const NOWHERE = msg('One more closet would save cable only in rooms that are no place for one.');

/** What speaks against a closet in a room, in words. */
const UNFIT: Readonly<Record<PassedOver['unfit'], string>> = {
  said: 'somebody said that none may stand there',
  cold: 'it looks like a cold room, where equipment gets wet each time that the door opens',
  wet: 'it looks like a room where water is used',
  hot: 'it looks like a room that gets hot',
  public: 'it looks like a room that guests or everybody walks through',
};

function passedWords(plan: Plan, { gain, unfit }: PassedOver, best: ClosetGain | null): Message {
  const room = plan.tables.zones.get(gain.zone ?? '')?.name || 'An unnamed room';
  const more = gain.saves - (best?.saves ?? 0);
  const params = { room, more: { mm: more }, count: gain.relieved.length };
  if (more > 0)
    return msg(`{room} would save {more} more, but is passed over: ${UNFIT[unfit]}.`, params);
  return msg(
    `{room} would bring {count} under their limit, but is passed over: ${UNFIT[unfit]}.`,
    params,
  );
}

function whereWords(plan: Plan, { zone, level }: ClosetGain): Message {
  const room = zone === null ? '' : (plan.tables.zones.get(zone)?.name ?? '');
  const name = plan.tables.levels.get(level)?.name ?? level;
  const where =
    room !== '' ? 'The best place is the middle of {room}' : 'The best place is amid the jacks';
  const on = plan.tables.levels.size > 1 ? ' on {name}.' : '.';
  return msg(`${where}${on}`, { room, name });
}

const savesWords = ({ nearer, saves }: ClosetGain): Message =>
  msg('{count} {runs} would go there and take {saves} less cable in all.', {
    count: nearer.length,
    runs: runsWord(nearer.length),
    saves: { mm: saves },
  });

function relievedWords(plan: Plan, { relieved }: ClosetGain): Message {
  if (relieved.length === 0) return msg('No run would come under its limit by it.');
  const labels = relieved.map((id) => plan.tables.jacks.get(id)?.label ?? id).sort(compareLabels);
  const more = labels.length - MOST;
  return msg('{count} {runs} would come under the limit: {labels}.', {
    count: labels.length,
    runs: runsWord(labels.length),
    labels: `${labels.slice(0, MOST).join(', ')}${more > 0 ? ` and ${more} more` : ''}`,
  });
}

const linkWords = ({ link }: ClosetGain): Message =>
  link === null
    ? msg(
        'No way leads from there to a closet that is there; the cable between the two is not counted.',
      )
    : msg(
        'One more cable between the closets, with a path of {link} to the nearest, is not counted; nor are its rack and its power.',
        { link: { mm: link } },
      );
