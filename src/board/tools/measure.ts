import { msg } from '../../base/message.ts';
import { lineTool } from '../gestures/line.ts';

export const measure = lineTool({
  id: 'measure',
  label: msg('Measure'),
  key: 'm',
  snaps: [
    'end',
    'middle',
    'place',
    'face',
    'centre',
    'edge',
    'right-angle',
    'under-end',
    'under-line',
  ],
  hint: msg('Click or drag from one place to another. Nothing is changed.'),
  stays: true,
  measured: true,
  end: () => [],
});
