import { planFileSchema } from '../../../src/plan/codec.ts';

/** A piece of JSON Schema, as far as the plan file uses it. */
interface Piece {
  readonly type?: string | readonly string[];
  readonly default?: unknown;
  readonly const?: unknown;
  readonly enum?: readonly string[];
  readonly anyOf?: readonly Piece[];
  readonly pattern?: string;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly minItems?: number;
  readonly items?: Piece | false;
  readonly prefixItems?: readonly Piece[];
  readonly properties?: Readonly<Record<string, Piece>>;
  readonly additionalProperties?: Piece | false;
}

/** A field of the plan file as the page lists it: name, what it may hold, and its default. */
export type FieldRow = readonly [field: string, value: string, fallback: string];

const PATTERNS: Readonly<Record<string, string>> = {
  '^[A-Z]$': 'a letter from A to Z',
  '^[A-Za-z][A-Za-z0-9_-]{0,39}$': 'an id',
  '^[A-Z][0-9]{1,4}(-[0-9]{1,2})?$': 'such as `A3` or `A3-2`',
  '^[0-9a-f]{16,64}$': '16 to 64 digits of a hash, 0 to f',
  '^[A-Za-z0-9+/]*={0,2}$': 'base64',
};

const code = (value: unknown): string => `\`${String(value)}\``;

function numberWords({ type, minimum, maximum, exclusiveMinimum }: Piece): string {
  const noun = type === 'integer' ? 'whole number' : 'number';
  const far = maximum === undefined || maximum >= 33_000_000;
  if (exclusiveMinimum !== undefined) return `${noun} above ${exclusiveMinimum}`;
  if (minimum === undefined) return noun;
  if (far) return minimum < 0 ? noun : `${noun}, ${minimum} or more`;
  return `${noun}, ${minimum} to ${maximum}`;
}

/** What a field may hold, in words. */
function valueWords(piece: Piece): string {
  if (piece.enum) return piece.enum.map(code).join(', ');
  if (piece.const !== undefined) return code(piece.const);
  if (Array.isArray(piece.type))
    return valueWords({ anyOf: piece.type.map((type) => ({ ...piece, type })) });
  if (piece.type === 'null') return code('null');
  if (piece.anyOf) {
    const words = piece.anyOf.map(valueWords);
    return words.every((word) => word.startsWith('`')) ? words.join(', ') : words.join(' or ');
  }
  if (piece.prefixItems) return '`[x, y]`';
  if (piece.type === 'array') return `list of ${piece.minItems} or more \`[x, y]\``;
  if (piece.properties) return code(`{ ${Object.keys(piece.properties).join(', ')} }`);
  if (piece.type === 'boolean') return '`true`, `false`';
  if (piece.type === 'string') return PATTERNS[piece.pattern ?? ''] ?? 'text';
  return numberWords(piece);
}

const rowsOf = (properties: Readonly<Record<string, Piece>>): FieldRow[] =>
  Object.entries(properties).map(([name, piece]) => [
    code(name),
    valueWords(piece),
    'default' in piece ? code(JSON.stringify(piece.default)) : 'needed',
  ]);

/** Every part of the plan file with its fields, in the order of the file. */
export function formatFields(): ReadonlyMap<string, readonly FieldRow[]> {
  const parts = (planFileSchema() as Piece).properties!;
  const found = new Map<string, readonly FieldRow[]>();
  for (const [part, piece] of Object.entries(parts)) {
    const row = piece.properties ? piece : (piece.additionalProperties as Piece | undefined);
    if (row?.properties) found.set(part, rowsOf(row.properties));
  }
  return found;
}
