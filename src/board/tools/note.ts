import { msg } from '../../base/message.ts';
import { lineTool } from '../gestures/line.ts';
import type { Tool } from './tool.ts';

/** What a note says until somebody types its words on the card. */
const WORDS = 'Note';

const line = lineTool({
  id: 'note',
  label: msg('Note'),
  key: 'Shift+N',
  snaps: ['end', 'middle', 'place'],
  hint: msg('Click what the note is about, then where its words go. Type them on its card.'),
  stays: false,
  measured: false,
  end: (to, at, { level }) => [
    { do: 'run', command: { name: 'place-note', args: { level, at, to, text: WORDS } } },
    { do: 'done' },
  ],
});

/** A note with a line to what it is about; Enter after the first place puts the words there, without a line. */
export const note: Tool<typeof line.start> = {
  ...line,
  next(state, event, context) {
    const here = state.a !== null && state.to !== null && String(state.a) === String(state.to);
    if (event.type === 'key' && event.key === 'Enter' && here) {
      const args = { level: context.level, at: state.a!, text: WORDS };
      return [line.start, [{ do: 'run', command: { name: 'place-note', args } }, { do: 'done' }]];
    }
    return line.next(state, event, context);
  },
  hint: (state, context) =>
    state.a
      ? msg('Click where the words go, or press Enter for no line.')
      : line.hint(state, context),
};
