import { describe, expect, it } from 'vitest';
import { kinds } from '../../src/kinds/index.ts';
import { coreSources, type Node, nodes, placeOf, sources, treeOf } from './source.ts';

const REMEDIES: Readonly<Record<string, string>> = {
  Date: 'take the day or the time as an argument',
  console: 'return a finding',
  fetch: 'take the data as an argument',
  performance: 'measure outside',
  setTimeout: 'the core answers at once',
  Promise: 'the core answers at once',
  process: 'take it as an argument',
};

/** Whether an identifier is a name of its own, and not a field, a key or a parameter's label. */
function standsAlone(node: Node, parent: Node | null): boolean {
  if (!parent) return true;
  if (parent.type === 'MemberExpression') return parent.object === node || parent.computed === true;
  if (/^(Property|TSPropertySignature|TSMethodSignature|MethodDefinition)$/.test(parent.type))
    return parent.value === node;
  return !parent.type.startsWith('TS') || parent.type === 'TSTypeReference';
}

const isMember = (node: Node, object: string, field: string): boolean =>
  node.type === 'MemberExpression' &&
  (node.object as Node).name === object &&
  (node.property as Node).name === field;

/** That the core sees no screen either is what compiling it without the DOM's library shows (`tsconfig.core.json`). */
describe('the core', () => {
  it('has no clock, no chance, no console, and no network', () => {
    const found = coreSources().flatMap((path) =>
      [...nodes(treeOf(path))].flatMap(([node, parent]) => {
        if (isMember(node, 'Math', 'random'))
          return [`${placeOf(path, node.start)} Math.random: take a seeded source as an argument.`];
        const remedy = node.type === 'Identifier' ? REMEDIES[node.name as string] : undefined;
        if (remedy === undefined || !Object.hasOwn(REMEDIES, node.name as string)) return [];
        if (!standsAlone(node, parent)) return [];
        return [`${placeOf(path, node.start)} ${String(node.name)}: ${remedy}.`];
      }),
    );
    expect(found).toEqual([]);
  });

  it('waits for nothing: no async function', () => {
    const found = coreSources().flatMap((path) =>
      [...nodes(treeOf(path))]
        .filter(([node]) => node.async === true || node.type === 'AwaitExpression')
        .map(([node]) => `${placeOf(path, node.start)}: only sheets/pdf may wait.`),
    );
    expect(found).toEqual([]);
  });

  it('keeps no state between calls: no `let` at the top of a file', () => {
    const found = coreSources().flatMap((path) =>
      (treeOf(path).body as Node[])
        .map((statement) => (statement.declaration as Node | null) ?? statement)
        .filter((node) => node.type === 'VariableDeclaration' && node.kind !== 'const')
        .map((node) => `${placeOf(path, node.start)}: pass state in and out.`),
    );
    expect(found).toEqual([]);
  });
});

describe('a kind of device', () => {
  it('is named in its own file alone; everybody else asks the kind', () => {
    const found = sources()
      .filter((path) => !path.startsWith('src/kinds/'))
      .flatMap((path) =>
        [...nodes(treeOf(path))]
          .filter(([node]) => node.type === 'Literal' && kinds.has(String(node.value)))
          .map(
            ([node]) =>
              `${placeOf(path, node.start)} names '${String(node.value)}': give DeviceKind a field that says what is asked here.`,
          ),
      );
    expect(found).toEqual([]);
  });
});
