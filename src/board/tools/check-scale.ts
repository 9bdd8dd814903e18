import { msg } from '../../base/message.ts';
import { knownLength } from '../gestures/known-length.ts';

export const checkScale = knownLength({
  id: 'check-scale',
  label: msg('Check scale'),
  key: 'c',
  hint: msg('Click one end of another length that you know, best at right angles to the first.'),
  for: 'check-scale',
});
