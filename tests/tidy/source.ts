import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseAst } from 'vite';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Folders that hold the core: pure functions without a screen, a clock or a disk. */
export const CORE = [
  ...['base', 'geometry', 'plan', 'results', 'kinds', 'routing', 'rules', 'takeoff', 'survey'],
  ...['drawing', 'sheets'],
];

/** Paths of the source files below a folder of the project, from the project's root, with forward slashes. */
export function sources(folder = 'src'): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .map((path) => `${folder}/${path.replaceAll('\\', '/')}`)
    .filter((path) => /\.(ts|tsx|mjs)$/.test(path))
    .sort();
}

export const coreSources = (): string[] =>
  CORE.flatMap((folder) => sources(`src/${folder}`)).filter(
    (p) => !p.startsWith('src/sheets/pdf/'),
  );

export const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

/** A node of the syntax tree, with what the checks look at. */
export interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [field: string]: unknown;
}

export const treeOf = (path: string): Node =>
  parseAst(read(path), { lang: path.endsWith('x') ? 'tsx' : 'ts' }) as unknown as Node;

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';

/** Every node of a tree with the one above it, parents first. */
export function* nodes(
  node: Node,
  parent: Node | null = null,
): Generator<readonly [Node, Node | null]> {
  yield [node, parent];
  for (const value of Object.values(node)) {
    for (const child of Array.isArray(value) ? value : [value]) {
      if (isNode(child)) yield* nodes(child, node);
    }
  }
}

/** `src/plan/plan.ts:12`, for a message. */
export function placeOf(path: string, at: number): string {
  return `${path}:${read(path).slice(0, at).split('\n').length}`;
}

export interface Import {
  readonly from: string;
  /** Path from the project's root, or the name of a package. */
  readonly to: string;
  readonly external: boolean;
  /** Whether only types come from there, so that nothing is loaded. */
  readonly types: boolean;
  readonly place: string;
}

/** What a file imports: by `import`, `export … from`, `import()` and `new URL(…, import.meta.url)`. */
export function importsOf(path: string): Import[] {
  const found: Import[] = [];
  const add = (source: unknown, at: number, types: boolean): void => {
    if (typeof source !== 'string') return;
    const file = source.split('?')[0]!;
    const external = !file.startsWith('.');
    const to = external
      ? file
      : relative(ROOT, resolve(ROOT, dirname(path), file)).replaceAll('\\', '/');
    found.push({ from: path, to, external, types, place: placeOf(path, at) });
  };
  for (const [node] of nodes(treeOf(path))) {
    const source = node.source as Node | null | undefined;
    if (/^(Import|ExportNamed|ExportAll)Declaration$/.test(node.type) && source) {
      add(source.value, node.start, node.importKind === 'type' || node.exportKind === 'type');
    }
    if (node.type === 'ImportExpression' && source) add(source.value, node.start, false);
    if (node.type === 'NewExpression' && (node.callee as Node).name === 'URL') {
      const [first] = node.arguments as Node[];
      if (first && String(first.value).startsWith('.')) add(first.value, node.start, false);
    }
  }
  return found;
}

/** Files that are kept or would be: those git knows, and new ones that it does not ignore. */
export function projectFiles(): string[] {
  const args = ['ls-files', '--cached', '--others', '--exclude-standard'];
  return execFileSync('git', args, { cwd: ROOT, encoding: 'utf8', maxBuffer: 1e8 })
    .split('\n')
    .filter((path) => path !== '');
}
