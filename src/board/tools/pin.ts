import { msg } from '../../base/message.ts';
import { jacksOfRefs } from '../../plan/jacks.ts';
import { chainTool } from '../gestures/chain.ts';
import { previewOf } from '../gestures/marks.ts';
import type { Tool, ToolContext, ToolEffect } from './tool.ts';

const jacks = ({ plan, selection }: ToolContext) => jacksOfRefs(plan, selection);

const chain = chainTool({
  id: 'pin',
  label: msg('Pin the selected runs'),
  key: 'd',
  snaps: ['grid', 'aligned', 'right-angle'],
  hint: msg('Click where the selected runs are to pass, in order from the jack to the closet.'),
  least: 1,
  closes: 'never',
  call: (points, _closed, context) => ({
    name: 'pin-runs',
    args: { level: context.level, points, jacks: jacks(context) },
  }),
});

const FIRST = msg(
  'Select the runs first: click a cable, a jack or a device, or take a group from the Runs shelf.',
);

const ends = (effects: readonly ToolEffect[]): boolean =>
  effects.some(({ do: what }) => what === 'run');

type State = typeof chain.start;

/** The runs as they would go if the next place were the last, so that their way and length are seen before it is set. */
function shown(state: State, context: ToolContext): ToolEffect {
  const { points, to } = state;
  const last = points.at(-1);
  const next = to && !(last && last[0] === to[0] && last[1] === to[1]) ? [...points, to] : points;
  if (next.length === 0) return { do: 'preview', changes: null };
  return previewOf(
    { name: 'pin-runs', args: { level: context.level, points: next, jacks: jacks(context) } },
    context,
  );
}

/**
 * Sets the places that the selected runs are made to pass, click by click; Enter or a double click ends it. Without a
 * selected run it says what to do first, and draws nothing.
 */
export const pin: Tool<State> = {
  ...chain,
  next(state, event, context) {
    if (jacks(context).length === 0)
      return [chain.start, event.type === 'press' ? [{ do: 'say', message: FIRST }] : []];
    if (state === chain.start && event.type === 'move')
      return [state, [shown({ ...state, to: event.at }, context)]];
    const [next, effects] = chain.next(state, event, context);
    if (ends(effects)) return [next, [...effects, { do: 'done' }]];
    return next === state ? [next, effects] : [next, [...effects, shown(next, context)]];
  },
};
