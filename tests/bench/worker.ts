import { Worker as Thread } from 'node:worker_threads';
import type { Plan } from '../../src/plan/plan.ts';
import { createSurveyClient, openWorker } from '../../src/worker/client.ts';

const threads = new Set<Thread>();

/** A browser's worker by a thread of Node: as much of it as the survey's client uses. */
class ThreadWorker extends EventTarget {
  readonly #thread: Thread;

  constructor(url: URL) {
    super();
    this.#thread = new Thread(new URL('./worker-thread.mjs', import.meta.url), {
      workerData: url.href,
    });
    threads.add(this.#thread);
    this.#thread.on('message', (data) => this.dispatchEvent(new MessageEvent('message', { data })));
    this.#thread.on('error', ({ message }) =>
      this.dispatchEvent(Object.assign(new Event('error'), { message })),
    );
  }

  postMessage(data: unknown): void {
    this.#thread.postMessage(data);
  }

  terminate(): void {
    void this.#thread.terminate();
    threads.delete(this.#thread);
  }
}

/** The client of the survey with its worker at the other end, as on the screen. */
export function surveyByWorker(): { survey(plan: Plan): Promise<unknown>; close(): void } {
  globalThis.Worker = ThreadWorker as unknown as typeof Worker;
  const client = createSurveyClient(openWorker);
  return {
    survey: (plan) => client.survey(plan),
    close: () => {
      for (const thread of threads) void thread.terminate();
      threads.clear();
    },
  };
}
