import { expect, test } from 'vitest';
import { openLasting, PdfReaderLostAgain } from '../../../src/app/pictures/lasting-reader.ts';
import { type PdfClient, PdfReaderLost, PdfRefused } from '../../../src/app/pictures/pdf-client.ts';

const FILE = { file: new Blob(), home: 'https://here.example/' };

/** Readers in the order in which they are started; each answers until it is ended. */
function readers() {
  const started: { asked: string[]; end(): void; closed: boolean }[] = [];
  const start = (): PdfClient => {
    let fail: (error: Error) => void = () => undefined;
    let ended = false;
    const one = {
      asked: [] as string[],
      closed: false,
      end: () => {
        ended = true;
        fail(new PdfReaderLost('ended'));
      },
    };
    started.push(one);
    const ask = async (want: string, about: { page?: number }) => {
      one.asked.push(want);
      if (ended) throw new PdfReaderLost('ended');
      if (want === 'open') return 3;
      if (about.page === 9) throw new PdfRefused('damaged');
      if (about.page === 1) return { width: 1, height: 1, paper: 1 };
      return new Promise((_, no) => {
        fail = no;
      });
    };
    return {
      ask: ask as PdfClient['ask'],
      close: () => {
        one.closed = true;
      },
    };
  };
  return { started, start };
}

test('a reader that came to its end is started anew by the next question', async () => {
  const { started, start } = readers();
  const { client, pages } = await openLasting(start, FILE);
  expect(pages).toBe(3);
  started[0]!.end();
  expect(await client.ask('size', { page: 1 })).toEqual({ width: 1, height: 1, paper: 1 });
  expect(started.map(({ asked }) => asked)).toEqual([
    ['open', 'size'],
    ['open', 'size'],
  ]);
});

test('what two questions left unanswered is asked of one new reader', async () => {
  const { started, start } = readers();
  const { client } = await openLasting(start, FILE);
  const waiting = client.ask('size', { page: 2 });
  started[0]!.end();
  const [size] = await Promise.all([client.ask('size', { page: 1 })]);
  expect(size.width).toBe(1);
  await expect.poll(() => started[1]?.asked.filter((want) => want === 'size').length).toBe(2);
  expect(started).toHaveLength(2);
  started[1]!.end();
  await expect(waiting).rejects.toThrow(PdfReaderLostAgain);
});

test('a reader that ends twice is not started a third time', async () => {
  const { started, start } = readers();
  const { client } = await openLasting(start, FILE);
  started[0]!.end();
  await client.ask('size', { page: 1 });
  started[1]!.end();
  for (let n = 0; n < 2; n++)
    await expect(client.ask('size', { page: 1 })).rejects.toThrow(PdfReaderLostAgain);
  expect(started).toHaveLength(2);
});

test('a refusal, and an end while the file is opened first, start nothing anew', async () => {
  const { started, start } = readers();
  const { client } = await openLasting(start, FILE);
  await expect(client.ask('size', { page: 9 })).rejects.toThrow(PdfRefused);
  const broken = () => {
    const client = start();
    started.at(-1)!.end();
    return client;
  };
  const opening = openLasting(broken, FILE);
  await expect(opening).rejects.toThrow(PdfReaderLost);
  await expect(opening).rejects.not.toThrow(PdfReaderLostAgain);
  expect(started.map(({ closed }) => closed)).toEqual([false, true]);
});
