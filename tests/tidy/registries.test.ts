import { basename } from 'node:path';
import { describe, expect, it } from 'vitest';
import { tools } from '../../src/board/tools/index.ts';
import { kinds } from '../../src/kinds/index.ts';
import { commands } from '../../src/plan/commands/index.ts';
import { rules } from '../../src/rules/index.ts';
import { sheets } from '../../src/sheets/index.ts';
import { ROOT, sources } from './source.ts';

/** What a folder's own files export, by file name without its ending. */
async function exportsOf(folder: string): Promise<Map<string, unknown[]>> {
  const found = new Map<string, unknown[]>();
  for (const path of sources(folder)) {
    const name = basename(path, '.ts');
    if (name === 'index' || path.split('/').length !== folder.split('/').length + 1) continue;
    found.set(name, Object.values((await import(`${ROOT}${path}`)) as object));
  }
  return found;
}

const has = (value: unknown, ...fields: string[]): value is { id: string } =>
  typeof value === 'object' && value !== null && fields.every((field) => field in value);

/** The files that export a thing with these fields, and the ids of the things. */
async function files(folder: string, ...fields: string[]): Promise<[file: string, id: string][]> {
  return [...(await exportsOf(folder))].flatMap(([file, values]) =>
    values
      .filter((value) => has(value, 'id', ...fields))
      .map((value): [string, string] => [file, (value as { id: string }).id]),
  );
}

describe.each([
  ['kinds', 'src/kinds', ['footprint', 'symbol'], [...kinds.values()]],
  ['rules', 'src/rules', ['check', 'limits'], rules],
  ['sheets', 'src/sheets', ['pages', 'title'], sheets],
  ['board tools', 'src/board/tools', ['next', 'start'], [...tools.values()]],
] as const)('the registry of %s', (_, folder, fields, registered) => {
  it('lists what the files of its folder hold, each once', async () => {
    const ids = (await files(folder, ...fields)).map(([, id]) => id);
    expect(registered.map(({ id }) => id).sort()).toEqual(ids.sort());
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('names each after its file', async () => {
    const odd = (await files(folder, ...fields)).filter(
      ([file, id]) => file !== id && file !== `${id}-sheet`,
    );
    expect(odd).toEqual([]);
  });
});

describe('the registry of commands', () => {
  it('lists every command that the files hold', async () => {
    const known = new Set<unknown>(Object.values(commands));
    const helpers = new Set(['toPicture', 'fromPicture', 'freeArea', 'serveDevice', 'pointsOf']);
    const missing = [...(await exportsOf('src/plan/commands'))].flatMap(([file, values]) =>
      values
        .filter((value) => typeof value === 'function' && !known.has(value))
        .map((value) => (value as { name: string }).name)
        .filter((name) => !helpers.has(name))
        .map((name) => `${file}.ts ${name}: add a line to commands/index.ts.`),
    );
    expect(missing).toEqual([]);
  });
});
