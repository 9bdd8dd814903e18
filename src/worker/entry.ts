import { kinds } from '../kinds/index.ts';
import { closetStudy, createSurveyor } from '../survey/survey.ts';
import { createAnswerer } from './answering.ts';
import type { Ask } from './protocol.ts';

const answer = createAnswerer(createSurveyor(kinds), closetStudy);

addEventListener('message', (event: MessageEvent<Ask>) => postMessage(answer(event.data)));
