import { kinds } from '../kinds/index.ts';
import { ceilingPlanes, closetStudy, createSurveyor } from '../survey/survey.ts';
import { createAnswerer } from './answering.ts';
import type { Ask } from './protocol.ts';

const answer = createAnswerer({
  survey: createSurveyor(kinds),
  closets: closetStudy,
  ceilings: ceilingPlanes,
});

addEventListener('message', (event: MessageEvent<Ask>) => postMessage(answer(event.data)));
