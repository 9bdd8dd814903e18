import { msg } from '../../base/message.ts';
import type { CommandArgs } from '../../plan/commands/index.ts';
import { chainTool } from '../gestures/chain.ts';
import type { ToolOption } from './tool.ts';

type Look = NonNullable<CommandArgs<'draw-walls'>['look']>;

interface WallOption extends ToolOption {
  readonly look: Look;
}

/**
 * Walls by what a cable meets in them. Thicknesses: 2 × 4 stud with 1/2 in. board on both sides 4.5 in.; 2 × 6 with
 * sheathing 7 in.; 8 in. block 7 5/8 in.; 4 in. panel (common practice, no source).
 */
export const WALLS: readonly WallOption[] = [
  { id: '', label: msg('To the ceiling'), look: {} },
  { id: 'deck', label: msg('To the deck'), look: { top: 'deck' } },
  { id: 'rated', label: msg('Fire-rated to deck'), look: { top: 'deck', rated: true } },
  {
    id: 'masonry',
    label: msg('Masonry to deck'),
    look: { top: 'deck', construction: 'masonry', thickness: 194 },
  },
  {
    id: 'panel',
    label: msg('Insulated panel'),
    look: { top: 'grid', construction: 'insulated', thickness: 102 },
  },
  {
    id: 'exterior',
    label: msg('Exterior'),
    look: { top: 'deck', exterior: true, thickness: 178 },
  },
];

export const wall = chainTool({
  id: 'wall',
  label: msg('Wall'),
  key: 'w',
  options: WALLS.map(({ id, label }) => ({ id, label })),
  snaps: [
    'grid',
    'end',
    'middle',
    'centre',
    'face',
    'right-angle',
    'perpendicular',
    'extension',
    'aligned',
    'under-end',
    'under-line',
  ],
  hint: msg('Click where the wall begins.'),
  least: 2,
  closes: 'may',
  call: (points, closed, { level, option }) => ({
    name: 'draw-walls',
    args: { level, points, closed, look: WALLS.find((w) => w.id === option)?.look ?? {} },
  }),
});
