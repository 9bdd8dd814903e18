/** Surveys an office of so many jacks and walls twice in a worker that is made for it: ms of each. */
const survey = (jacks: number): Promise<readonly [number, number]> =>
  new Promise((done, fail) => {
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<readonly [number, number]>) => {
      worker.terminate();
      done(data);
    };
    worker.onerror = (event) => fail(new Error(event.message));
    worker.postMessage(jacks);
  });

Object.assign(window, { survey });
