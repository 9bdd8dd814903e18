import { parentPort, workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

/** A thread of Node with as much of a browser's worker about it as the survey's entry uses. */
const port = /** @type {import('node:worker_threads').MessagePort} */ (parentPort);
Object.assign(globalThis, {
  /** @param {string} type @param {(event: { data: unknown }) => void} hear */
  addEventListener: (type, hear) => {
    if (type === 'message') port.on('message', (data) => hear({ data }));
  },
  /** @param {unknown} data */
  postMessage: (data) => port.postMessage(data),
});
register();
await import(workerData);
