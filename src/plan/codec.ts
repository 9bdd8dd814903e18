import * as z from 'zod/mini';
import { cutShort } from '../base/cut-short.ts';
import { compareIds, type Id } from '../base/ids.ts';
import { fail, type Issue, ok, type Result } from '../base/result.ts';
import { inOrder } from './change.ts';
import { checkWhole } from './integrity.ts';
import { type AnyEntity, emptyPlan, type Plan, type Tables } from './plan.ts';
import { FORMAT_VERSION, SINGLETONS, TABLES, type TableName, tableSchemas } from './schema.ts';

/** The first field of every plan file. */
export const FORMAT_NAME = 'dropwise-plan';

/** Characters of text beyond which a file is refused unread: no honest plan is so large, pictures included. */
export const MAX_TEXT = 150_000_000;

/** A picture as it stands in a plan file. */
export interface AssetText {
  readonly name: string;
  readonly type: string;
  /** The bytes in base64. */
  readonly data: string;
}

export interface PlanFile {
  readonly plan: Plan;
  readonly assets: ReadonlyMap<string, AssetText>;
}

const single = (table: TableName): boolean => (SINGLETONS as readonly TableName[]).includes(table);
const rowId = z.string().check(z.regex(/^[A-Za-z][A-Za-z0-9_-]{0,39}$/));
const assetSchema = z.strictObject({
  name: z._default(z.string(), ''),
  type: z.enum(['image/png', 'image/jpeg', 'image/webp', 'image/svg+xml', 'application/pdf']),
  data: z.string().check(z.regex(/^[A-Za-z0-9+/]*={0,2}$/)),
});

const fileSchema = z.strictObject({
  format: z.literal(FORMAT_NAME),
  version: z.literal(FORMAT_VERSION),
  ...(Object.fromEntries(
    TABLES.map((table) => [
      table,
      z.optional(
        single(table) ? tableSchemas[table] : z.record(rowId, tableSchemas[table] as z.ZodMiniType),
      ),
    ]),
  ) as unknown as { [T in TableName]: z.ZodMiniOptional<z.ZodMiniType> }),
  assets: z.optional(z.record(z.string().check(z.regex(/^[0-9a-f]{16,64}$/)), assetSchema)),
});

/** The JSON Schema (draft 2020-12) of the plan file, as somebody writes it: fields with a default may be left out. */
export const planFileSchema = (): object => z.toJSONSchema(fileSchema, { io: 'input' });

const EXPECTED: Readonly<Record<string, string>> = {
  int: 'a whole number',
  array: 'a list in square brackets',
  tuple: 'a pair of numbers in square brackets',
  object: 'a group in braces',
  record: 'a group in braces',
  boolean: 'true or false',
  string: 'text in quotes',
};

function readable(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'unrecognized_keys':
      return `has the field${issue.keys.length > 1 ? 's' : ''} ${issue.keys.map((k) => `"${k}"`).join(', ')}, which this version does not know. Check the spelling or take it out.`;
    case 'invalid_type':
      return `should be ${EXPECTED[issue.expected] ?? `a ${issue.expected}`}.`;
    case 'too_small':
      return `is too small or too short: the least is ${issue.minimum}.`;
    case 'too_big':
      return `is too large or too long: the most is ${issue.maximum}.`;
    case 'invalid_value':
      return `should be ${issue.values.map((v) => JSON.stringify(v)).join(' or ')}.`;
    case 'invalid_format':
      return 'is not written as it should be (see the description of the plan file).';
    case 'invalid_key':
      return 'is not a name that a row can have: a letter, then letters, digits, - or _.';
    default:
      return 'does not fit the description of the plan file.';
  }
}

function issueOf(issue: z.core.$ZodIssue): Issue {
  const path = issue.path.join('.');
  const code = issue.code === 'unrecognized_keys' ? 'unknown-field' : 'bad-value';
  return { code, path, message: `${path || 'The file'} ${readable(issue)}` };
}

/** Where in the text JSON.parse gave up, in words; engines word their messages differently. */
function placeOf(error: unknown, text: string): string {
  const words = String(error);
  const at = /position (\d+)/.exec(words)?.[1];
  const line = /line (\d+)/.exec(words)?.[1];
  const ended =
    at === undefined ? /end of|unterminated|EOF/i.test(words) : Number(at) >= text.length;
  if (ended)
    return `It ends after ${text.length.toLocaleString('en-US')} characters, before it is complete`;
  if (line !== undefined) return `Line ${line} is not valid JSON`;
  if (at === undefined) return 'It is not valid JSON';
  return `Line ${text.slice(0, Number(at)).split('\n').length} is not valid JSON`;
}

/**
 * Reads a plan file. Nothing is guessed: a field that is not known, a value out of range, an id that names nothing or
 * a wall without length is an issue with its place, and no plan comes out.
 *
 * @param kinds ids of the device kinds that this program knows
 */
export function readPlan(text: string, kinds: ReadonlySet<string>): Result<PlanFile> {
  if (text.length > MAX_TEXT) {
    return fail(
      'too-large',
      'This file is larger than any plan that can be opened here (150 MB). Choose the plan file, not a picture or an archive.',
    );
  }
  let data: unknown;
  try {
    data = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return fail(
      'not-json',
      `This file is damaged or is not a plan. ${placeOf(error, text)}. Open an older copy, or the one that you saved last.`,
    );
  }
  if (
    typeof data !== 'object' ||
    data === null ||
    (data as { format?: unknown }).format !== FORMAT_NAME
  ) {
    return fail(
      'not-a-plan',
      `This is not a plan file: it does not begin with "format": "${FORMAT_NAME}". Choose a file that was saved here.`,
    );
  }
  const version = (data as { version?: unknown }).version;
  if (typeof version === 'number' && version > FORMAT_VERSION) {
    return fail(
      'newer-version',
      `This plan was saved by a newer version (format ${version}; this one reads up to ${FORMAT_VERSION}). Reload the page to get the newest version, then open it again.`,
      'version',
    );
  }
  if (version !== FORMAT_VERSION) return fail('bad-value', strangeVersion(version), 'version');
  const unnameable = inheritedName(data);
  if (unnameable !== null) {
    const path = `${unnameable}.__proto__`;
    const words = 'is not a name that a row can have. Choose another.';
    return fail('bad-value', `${path} ${words}`, path);
  }
  const parsed = fileSchema.safeParse(data);
  if (!parsed.success) return { ok: false, issues: parsed.error.issues.slice(0, 20).map(issueOf) };
  const plan = planOf(parsed.data as Record<string, unknown>);
  const assets = new Map(Object.entries((parsed.data.assets ?? {}) as Record<string, AssetText>));
  const issues = checkWhole(plan, kinds, assets);
  return issues.length > 0 ? { ok: false, issues: issues.slice(0, 20) } : ok({ plan, assets });
}

/** What is said of a version that is none that was ever written, or that is not there. */
function strangeVersion(version: unknown): string {
  const found =
    version === undefined
      ? 'does not say of which format it is'
      : `says that it is of format ${cutShort(JSON.stringify(version), 40)}, which there never was`;
  return `This plan ${found}; format ${FORMAT_VERSION} can be read. Open the copy that you saved last. If the file was written by hand or by another program, put "version": ${FORMAT_VERSION} after its "format".`;
}

/** The part of a file with a row called `__proto__`, which the schema would pass over without a word; else null. */
function inheritedName(data: object): string | null {
  for (const [part, rows] of Object.entries(data)) {
    if (typeof rows === 'object' && rows !== null && Object.hasOwn(rows, '__proto__')) return part;
  }
  return null;
}

function planOf(data: Record<string, unknown>): Plan {
  const blank = emptyPlan();
  const tables: Partial<Record<TableName, ReadonlyMap<Id, AnyEntity>>> = {};
  for (const table of TABLES) {
    const rows = data[table];
    if (rows === undefined) {
      tables[table] = blank.tables[table] as ReadonlyMap<Id, AnyEntity>;
    } else if (single(table)) {
      tables[table] = new Map([
        [table, Object.freeze({ id: table, ...(rows as object) }) as AnyEntity],
      ]);
    } else {
      const entries = Object.entries(rows as object).map(
        ([id, row]) => [id, Object.freeze({ id, ...row }) as AnyEntity] as const,
      );
      tables[table] = inOrder(new Map(entries));
    }
  }
  return { tables: tables as unknown as Tables };
}

function rowText(row: AnyEntity, table: TableName): string {
  const shape = Object.keys((tableSchemas[table] as unknown as { shape: object }).shape);
  const values = row as unknown as Record<string, unknown>;
  return JSON.stringify(Object.fromEntries(shape.map((field) => [field, values[field]])));
}

/**
 * The plan as a file: the same plan always gives the same text, one row a line, so that two versions can be compared.
 */
export function writePlan(plan: Plan, assets: ReadonlyMap<string, AssetText> = new Map()): string {
  const parts = [`"format": "${FORMAT_NAME}"`, `"version": ${FORMAT_VERSION}`];
  for (const table of TABLES) {
    const rows = plan.tables[table] as ReadonlyMap<Id, AnyEntity>;
    if (single(table)) {
      parts.push(`"${table}": ${rowText(rows.get(table)!, table)}`);
    } else if (rows.size > 0) {
      const lines = [...rows.keys()]
        .sort(compareIds)
        .map((id) => `    "${id}": ${rowText(rows.get(id)!, table)}`);
      parts.push(`"${table}": {\n${lines.join(',\n')}\n  }`);
    }
  }
  if (assets.size > 0) {
    const lines = [...assets.keys()]
      .sort()
      .map((hash) => `    "${hash}": ${JSON.stringify(assets.get(hash))}`);
    parts.push(`"assets": {\n${lines.join(',\n')}\n  }`);
  }
  return `{\n  ${parts.join(',\n  ')}\n}\n`;
}
