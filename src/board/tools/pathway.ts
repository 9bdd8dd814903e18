import { msg } from '../../base/message.ts';
import type { Pathway } from '../../plan/plan.ts';
import { chainTool } from '../gestures/chain.ts';
import type { ToolOption } from './tool.ts';

interface PathwayOption extends ToolOption {
  readonly id: Pathway['kind'];
}

const PATHWAYS: readonly PathwayOption[] = [
  { id: 'hook-line', label: msg('Hook line') },
  { id: 'tray', label: msg('Tray') },
  { id: 'conduit', label: msg('Conduit') },
  { id: 'raceway', label: msg('Raceway') },
  { id: 'sleeve', label: msg('Sleeve') },
  { id: 'under-slab', label: msg('Under-slab conduit') },
];

export const pathway = chainTool({
  id: 'pathway',
  label: msg('Pathway'),
  key: 'p',
  options: PATHWAYS,
  snaps: [
    'grid',
    'end',
    'place',
    'centre',
    'face',
    'edge',
    'right-angle',
    'aligned',
    'under-end',
    'under-line',
  ],
  hint: msg('Click where the pathway begins.'),
  least: 2,
  closes: 'never',
  call: (points, _closed, { level, option }) => ({
    name: 'draw-pathway',
    args: { level, points, kind: PATHWAYS.find((p) => p.id === option)?.id ?? 'hook-line' },
  }),
});
