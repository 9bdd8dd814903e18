import { msg } from '../../base/message.ts';
import { knownLength } from '../gestures/known-length.ts';

export const checkScale = knownLength({
  id: 'check-scale',
  label: msg('Check scale'),
  key: 'c',
  hint: msg('Click one end of a length that you know, best the way that no line has gone yet.'),
  for: 'check-scale',
});
