import { basename } from 'node:path';
import { describe, expect, it } from 'vitest';
import { tools } from '../../src/board/tools/index.ts';
import { kinds } from '../../src/kinds/index.ts';
import { commands } from '../../src/plan/commands/index.ts';
import { rules } from '../../src/rules/index.ts';
import { sheets } from '../../src/sheets/index.ts';
import { type Node, ROOT, sources, treeOf } from './source.ts';

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

/** The names of the commands that a file exports: constants of the type `Command`. */
function commandsIn(path: string): string[] {
  return (treeOf(path).body as Node[])
    .flatMap((statement) => ((statement.declaration as Node | null)?.declarations as Node[]) ?? [])
    .map(({ id }) => id as Node)
    .filter((id) => {
      const type = (id.typeAnnotation as Node | null)?.typeAnnotation as Node | undefined;
      return (type?.typeName as Node | undefined)?.name === 'Command';
    })
    .map((id) => id.name as string);
}

describe('the registry of commands', () => {
  it('lists every command that the files hold, each once', async () => {
    const held: unknown[] = [];
    for (const path of sources('src/plan/commands')) {
      const values = (await import(`${ROOT}${path}`)) as Record<string, unknown>;
      held.push(...commandsIn(path).map((name) => values[name]));
    }
    expect(held.length).toBeGreaterThan(20);
    expect(new Set(held)).toEqual(new Set(Object.values(commands)));
    expect(held).toHaveLength(Object.keys(commands).length);
  });
});
