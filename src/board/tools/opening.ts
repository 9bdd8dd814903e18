import { msg } from '../../base/message.ts';
import { spotTool } from '../gestures/spot.ts';
import type { Tool, ToolOption } from './tool.ts';

/** What is placed in a wall. */
const OPTIONS: readonly ToolOption[] = [
  { id: '', label: msg('Door') },
  { id: 'window', label: msg('Window') },
  { id: 'opening', label: msg('Opening without a door') },
];

const kindOf = (option: string) =>
  option === 'window' || option === 'opening' ? option : ('door' as const);

const spot = spotTool({
  id: 'opening',
  label: msg('Door, window or opening'),
  key: 'q',
  snaps: [],
  hint: msg('Click on a wall, on the side to which a door opens.'),
  once: false,
  call: (at, { level, option }) => ({
    name: 'place-opening',
    args: { level, kind: kindOf(option), at },
  }),
});

export const opening: Tool<typeof spot.start> = { ...spot, options: OPTIONS };
