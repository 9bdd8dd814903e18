import { parseArgs } from 'node:util';
import { fail, ok, type Result } from '../base/result.ts';
import { PAPERS, type PaperName } from '../sheets/sheet.ts';

/** What the command line asks for. */
export type Task =
  | { readonly do: 'help' | 'schema' }
  | {
      readonly do: 'take-off';
      readonly plan: string;
      readonly json: boolean;
      /** Whether it says what one more closet would do. */
      readonly closets: boolean;
      readonly out: string | null;
      /** Null takes the paper that goes with the job's units. */
      readonly paper: PaperName | null;
    };

export const HELP = `Takes cable, material, labour and price off a plan file.

  npm run takeoff -- PLAN [--out DIR] [--paper PAPER] [--closets] [--json]

  PLAN            the plan file, such as public/samples/restaurant.json
  --out DIR       writes schedule.csv, materials.csv and plan.pdf into DIR, which is made if it is not there
  --paper PAPER   ${Object.keys(PAPERS).join(', ')}; letter for a job in feet, a4 for one in metres
  --closets       says what one more closet would save, and where; it tries every room
  --json          prints one JSON object instead of the summary (npm run -s keeps npm's own lines out)
  --schema        prints the JSON Schema of the plan file
  --help          prints this

Lengths in the JSON are whole millimetres, money whole cents. The exit code is 0, or 1 with one message.
`;

const isPaper = (name: string): name is PaperName => name in PAPERS;

/** Reads the arguments; what cannot be understood is one issue that says how to put it right. */
export function readOptions(args: readonly string[]): Result<Task> {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(args);
  } catch (error) {
    const [what] = (error as Error).message.split(/[.\n]/);
    return fail('bad-option', `${what}. Try --help.`);
  }
  const { values, positionals } = parsed;
  if (values.help) return ok({ do: 'help' });
  if (values.schema) return ok({ do: 'schema' });
  const [plan, another] = positionals;
  if (plan === undefined) return fail('no-plan', 'Say which plan file to read. Try --help.');
  if (another !== undefined)
    return fail('bad-option', `One plan at a time: "${another}" is one too many. Try --help.`);
  const { paper, out, json, closets } = values;
  if (paper !== undefined && !isPaper(paper)) {
    const known = Object.keys(PAPERS).join(', ');
    return fail('bad-option', `There is no paper "${paper}". There are ${known}.`);
  }
  if (paper !== undefined && out === undefined)
    return fail('bad-option', '--paper goes with --out, which says where the PDF is written.');
  if (out === '') return fail('bad-option', '--out needs the name of a folder.');
  return ok({
    do: 'take-off',
    plan,
    json: json ?? false,
    closets: closets ?? false,
    out: out ?? null,
    paper: paper ?? null,
  });
}

const parse = (args: readonly string[]) =>
  parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      out: { type: 'string' },
      paper: { type: 'string' },
      json: { type: 'boolean' },
      closets: { type: 'boolean' },
      schema: { type: 'boolean' },
      help: { type: 'boolean', short: 'h' },
    },
  });
