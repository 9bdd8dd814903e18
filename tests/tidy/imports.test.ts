import { describe, expect, it } from 'vitest';
import { importsOf, sources } from './source.ts';

/** What each folder may import besides itself, and what to do instead. `DEVELOPERS.md` has the same table in words. */
const BORDERS: Readonly<Record<string, readonly [allowed: string, remedy: string]>> = {
  base: ['', 'base stands alone: pass what it needs as an argument.'],
  text: ['base', 'text holds words and formats only: move the reckoning to who asks for it.'],
  geometry: ['base', 'geometry takes numbers and points: pass plain values, not rows of the plan.'],
  plan: [
    'base geometry',
    'the plan names no kind and no engine: take the registry as an argument.',
  ],
  results: [
    'base geometry plan',
    'results are plain types: move code to the engine that makes them.',
  ],
  kinds: ['base geometry plan drawing', 'a kind answers questions: let the engine ask it.'],
  drawing: ['base geometry plan kinds results', 'drawing takes a plan and a survey, and draws.'],
  routing: [
    'base geometry plan kinds results',
    'engines do not call each other: survey joins them.',
  ],
  rules: [
    'base geometry plan kinds results',
    'rules look at results: put what is missing into them.',
  ],
  takeoff: [
    'base geometry plan kinds results',
    'engines do not call each other: survey joins them.',
  ],
  survey: [
    'base geometry plan kinds results routing rules takeoff',
    'survey joins the engines and draws nothing.',
  ],
  sheets: [
    'base geometry plan kinds results drawing takeoff text',
    'a sheet draws what the survey says: pass in what it lacks.',
  ],
  ports: ['base plan results', 'ports are interfaces: put the code into storage, worker or app.'],
  storage: [
    'base plan ports results',
    'storage knows ports and plans only: inject the rest in app.',
  ],
  worker: ['base plan kinds results survey ports', 'the worker answers surveys only.'],
  board: [
    'base geometry plan kinds results drawing text ports',
    'the board gets results from its store: compute them in the worker.',
  ],
  desk: [
    'base geometry plan kinds results drawing text ports board sheets',
    'panels read snapshots and ask services: add a method to desk/services.ts.',
  ],
};

/** Packages that only these places may name. */
const PACKAGES: readonly (readonly [RegExp, readonly string[], string])[] = [
  [
    /^(konva|react-konva)(\/|$)/,
    ['src/board/canvas/'],
    'only board/canvas sees the canvas library',
  ],
  [/^(@cantoo\/pdf-lib|fontkit)(\/|$)/, ['src/sheets/pdf/'], 'only sheets/pdf writes PDF'],
  [/^pdfjs-dist(\/|$)/, ['src/app/'], 'only app reads PDF files'],
  [/^(idb)(\/|$)/, ['src/storage/'], 'only storage sees the database'],
  [/^browser-fs-access(\/|$)/, ['src/app/', 'src/storage/'], 'only app opens and saves files'],
  [/^node:/, ['src/cli/'], 'only the command line runs in Node'],
  [/^(react|react-dom)(\/|$)/, ['src/board/', 'src/desk/', 'src/app/'], 'the core has no screen'],
  [/^zustand(\/|$)/, ['src/board/', 'src/desk/', 'src/app/'], 'state of the screen stays there'],
  [
    /^zod(\/|$)/,
    // `main.tsx` only tells the library to write no code of its own.
    ['src/plan/', 'src/storage/', 'src/app/main.tsx'],
    'data from outside is checked in plan',
  ],
];

const all = sources().flatMap(importsOf);
const folderOf = (path: string): string => path.split('/')[1]!;

describe('imports', () => {
  it('keep to the borders between the folders', () => {
    const crossed = all
      .filter(({ external, from, to }) => !external && folderOf(from) !== folderOf(to))
      .filter(({ from }) => BORDERS[folderOf(from)] !== undefined)
      .filter(({ from, to }) => {
        const [allowed] = BORDERS[folderOf(from)]!;
        return to.startsWith('src/') && !allowed.split(' ').includes(folderOf(to));
      })
      .map(({ place, from, to }) => `${place} imports ${to}: ${BORDERS[folderOf(from)]![1]}`);
    expect(crossed).toEqual([]);
  });

  it('know every folder: a new one needs its line in the table above', () => {
    const known = new Set([...Object.keys(BORDERS), 'app', 'cli']);
    expect([...new Set(sources().map(folderOf))].filter((folder) => !known.has(folder))).toEqual(
      [],
    );
  });

  it('never reach into app or cli, which put the others together', () => {
    const reached = all.filter(
      ({ external, from, to }) =>
        !external && /^src\/(app|cli)\//.test(to) && folderOf(from) !== folderOf(to),
    );
    expect(reached.map(({ place, to }) => `${place} imports ${to}: pass it in instead.`)).toEqual(
      [],
    );
  });

  it('of the desk leave the canvas and the PDF writer alone', () => {
    const reached = all.filter(
      ({ from, to }) =>
        from.startsWith('src/desk/') && /^src\/(board\/canvas|sheets\/pdf)\//.test(to),
    );
    expect(reached.map(({ place, to }) => `${place} imports ${to}: ask desk/services.ts.`)).toEqual(
      [],
    );
  });

  it('name a package only where it belongs', () => {
    const strays = all
      .filter(({ external }) => external)
      .flatMap(({ place, from, to }) =>
        PACKAGES.filter(
          ([name, homes]) => name.test(to) && !homes.some((h) => from.startsWith(h)),
        ).map(([, homes, why]) => `${place} imports ${to}: ${why} (${homes.join(', ')}).`),
      );
    expect(strays).toEqual([]);
  });

  it('never go round in a circle', () => {
    const next = new Map<string, string[]>();
    for (const { from, to, external, types } of all) {
      if (!external && !types) next.set(from, [...(next.get(from) ?? []), to]);
    }
    const done = new Set<string>();
    const circles: string[] = [];
    const visit = (path: string, trail: readonly string[]): void => {
      const at = trail.indexOf(path);
      if (at >= 0) circles.push([...trail.slice(at), path].join(' -> '));
      if (at >= 0 || done.has(path)) return;
      for (const to of next.get(path) ?? []) visit(to, [...trail, path]);
      done.add(path);
    };
    for (const path of next.keys()) visit(path, []);
    expect(circles.map((circle) => `${circle}: move what both need into a third file.`)).toEqual(
      [],
    );
  });

  it('between folders never go round in a circle either, types aside', () => {
    const pairs = new Set(
      all
        .filter(({ external, types }) => !external && !types)
        .map(({ from, to }) => `${folderOf(from)} ${folderOf(to)}`),
    );
    const both = [...pairs].filter((pair) => {
      const [a, b] = pair.split(' ') as [string, string];
      return a < b && pairs.has(`${b} ${a}`);
    });
    expect(both).toEqual([]);
  });
});
