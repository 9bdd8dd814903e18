import { kinds } from '../../../src/kinds/index.ts';
import { createSurveyor } from '../../../src/survey/survey.ts';
import { officePlan } from '../office.ts';

/** The worker has seen no survey before, so the first one compiles what it needs as it goes. */
self.onmessage = ({ data: jacks }: MessageEvent<number>): void => {
  const plan = officePlan({ walls: jacks, jacks });
  const timed = (): number => {
    const start = performance.now();
    const { runs } = createSurveyor(kinds)(plan);
    if (runs.length !== jacks) throw new Error(`${runs.length} runs of ${jacks} jacks`);
    return performance.now() - start;
  };
  self.postMessage([timed(), timed()]);
};
