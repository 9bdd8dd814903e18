import { msg } from '../../base/message.ts';
import { knownLength } from '../gestures/known-length.ts';

export const setScale = knownLength({
  id: 'set-scale',
  label: msg('Set scale'),
  key: 'g',
  hint: msg('Click one end of a length that you know, such as a whole wall or a dimension line.'),
  for: 'set-scale',
});
