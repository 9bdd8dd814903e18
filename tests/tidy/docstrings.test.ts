import { describe, expect, it } from 'vitest';
import { coreSources, type Node, placeOf, read, treeOf } from './source.ts';

const FUNCTION = /^(Arrow)?Function(Expression|Declaration)?$|^ArrowFunctionExpression$/;

/** The names of the functions that an export statement declares. */
function functionsIn(statement: Node): string[] {
  const declaration = statement.declaration as Node | null;
  if (!declaration) return [];
  if (declaration.type === 'FunctionDeclaration') return [(declaration.id as Node).name as string];
  if (declaration.type !== 'VariableDeclaration') return [];
  return (declaration.declarations as Node[])
    .filter(({ init }) => FUNCTION.test((init as Node | null)?.type ?? ''))
    .map(({ id }) => (id as Node).name as string);
}

describe('every exported function of the core', () => {
  it('has a docstring that says what it answers, in what unit, and what it does with odd input', () => {
    const bare = coreSources().flatMap((path) =>
      (treeOf(path).body as Node[])
        .filter((statement) => statement.type === 'ExportNamedDeclaration')
        .filter(({ start }) => !read(path).slice(0, start).trimEnd().endsWith('*/'))
        .flatMap((statement) =>
          functionsIn(statement).map((name) => `${placeOf(path, statement.start)} ${name}`),
        ),
    );
    expect(bare).toEqual([]);
  });
});
