import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kinds } from '../../../src/kinds/index.ts';
import {
  FORMAT_NAME,
  MAX_TEXT,
  planFileSchema,
  readPlan,
  writePlan,
} from '../../../src/plan/codec.ts';
import { emptyPlan, job, settings } from '../../../src/plan/plan.ts';
import { FORMAT_VERSION, TABLES } from '../../../src/plan/schema.ts';
import { planOf } from '../../samples/plan-of.ts';
import { readSite } from '../../samples/site.ts';

const known = new Set(kinds.keys());
const restaurant = planOf(readSite('restaurant'));
const file = (parts: object = {}): string =>
  JSON.stringify({ format: FORMAT_NAME, version: FORMAT_VERSION, ...parts });

/** What reading says is wrong: codes with their places. */
function faults(text: string): string[] {
  const result = readPlan(text, known);
  return result.ok ? [] : result.issues.map((issue) => `${issue.code} ${issue.path}`.trim());
}

function message(text: string): string {
  const result = readPlan(text, known);
  if (result.ok) throw new Error('it was read');
  return result.issues[0]!.message;
}

function read(text: string) {
  const result = readPlan(text, known);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

describe('reading a plan file', () => {
  it('takes the least of one: defaults for all that is left out', () => {
    const { plan, assets } = read(file());
    expect(plan).toEqual(emptyPlan());
    expect(assets.size).toBe(0);
    expect(
      read(file({ walls: { W1: { a: [0, 0], b: [9, 0] } } })).plan.tables.walls.get('W1'),
    ).toEqual({
      id: 'W1',
      level: 'L1',
      a: [0, 0],
      b: [9, 0],
      thickness: 124,
      construction: 'framed',
      top: 'grid',
      locked: false,
      rated: false,
      exterior: false,
    });
  });

  it('takes a file that begins with a byte order mark, and odd white space', () => {
    expect(faults(`\uFEFF${file()}`)).toEqual([]);
    expect(faults(`\n\t ${file()}\r\n\n`)).toEqual([]);
  });

  it('gives rows that cannot be changed in place', () => {
    expect(Object.isFrozen(read(file()).plan.tables.levels.get('L1'))).toBe(true);
  });

  it.each([
    ['text', 'not a plan'],
    ['nothing', ''],
    ['half a file', writePlan(restaurant).slice(0, 5000)],
    ['a file cut inside a word', file({ job: { name: 'Corner' } }).slice(0, -6)],
    ['a number that JSON does not have', file().replace('1', 'NaN')],
    ['single quotes', file().replaceAll('"', "'")],
    ['a comma too many', file().replace('}', ',}')],
  ])('refuses %s: not JSON', (_, text) => {
    expect(faults(text)).toEqual(['not-json']);
  });

  it('says where the text breaks off or goes wrong', () => {
    const whole = writePlan(restaurant);
    expect(message(whole.slice(0, 5000))).toContain('It ends after 5,000 characters');
    expect(message(whole.replace('"version"', 'version'))).toContain('Line 3 is not valid JSON');
  });

  it.each([
    ['null', 'null'],
    ['a list', '[]'],
    ['a number', '7'],
    ['an object without format', '{}'],
    ['another format', JSON.stringify({ format: 'a-shopping-list', version: 1 })],
  ])('refuses %s: not a plan', (_, text) => {
    expect(faults(text)).toEqual(['not-a-plan']);
  });

  it('refuses a newer version before it looks at anything else, and says what to do', () => {
    const text = JSON.stringify({ format: FORMAT_NAME, version: 2, rooms: {} });
    expect(faults(text)).toEqual(['newer-version version']);
    expect(message(text)).toContain('Reload the page');
  });

  it.each([0, -1, '1', null])('refuses version %s', (version) => {
    const text = JSON.stringify({ format: FORMAT_NAME, version });
    expect(faults(text)).toEqual(['bad-value version']);
    expect(message(text)).toContain(`of format ${JSON.stringify(version)}, which there never was`);
    expect(message(text)).toContain(`format ${FORMAT_VERSION} can be read. Open the copy`);
  });

  it('says that a version is missing, and where it is put', () => {
    const text = JSON.stringify({ format: FORMAT_NAME });
    expect(message(text)).toContain('does not say of which format it is');
    expect(message(text)).toContain(`put "version": ${FORMAT_VERSION} after its "format"`);
  });

  it('refuses a file larger than any plan, unread', () => {
    expect(faults(' '.repeat(MAX_TEXT + 1))).toEqual(['too-large']);
  });

  it.each([
    ['unknown-field', { colour: 'red' }],
    ['unknown-field job', { job: { titel: 'x' } }],
    ['unknown-field walls.W1', { walls: { W1: { a: [0, 0], b: [1, 0], c: [2, 0] } } }],
    [
      'unknown-field zones.Z1.ceiling',
      {
        zones: {
          Z1: {
            outline: [
              [0, 0],
              [9, 0],
              [9, 9],
            ],
            ceiling: { sort: 'tile' },
          },
        },
      },
    ],
    ['bad-value walls.1', { walls: { '1': { a: [0, 0], b: [1, 0] } } }],
    ['bad-value walls.W 1', { walls: { 'W 1': { a: [0, 0], b: [1, 0] } } }],
    ['bad-value walls', { walls: [] }],
    ['bad-value walls.W1', { walls: { W1: null } }],
    ['bad-value walls.W1.b', { walls: { W1: { a: [0, 0] } } }],
    ['bad-value walls.W1.a', { walls: { W1: { a: [0, 0, 0], b: [1, 0] } } }],
    ['bad-value walls.W1.a.0', { walls: { W1: { a: [0.5, 0], b: [1, 0] } } }],
    ['bad-value walls.W1.a.0', { walls: { W1: { a: ['0', 0], b: [1, 0] } } }],
    ['bad-value walls.W1.a.0', { walls: { W1: { a: [33_000_001, 0], b: [1, 0] } } }],
    ['bad-value walls.W1.a.0', { walls: { W1: { a: [null, 0], b: [1, 0] } } }],
    ['bad-value walls.W1.thickness', { walls: { W1: { a: [0, 0], b: [1, 0], thickness: 0 } } }],
    ['bad-value walls.W1.top', { walls: { W1: { a: [0, 0], b: [1, 0], top: 'roof' } } }],
    ['bad-value walls.W1.rated', { walls: { W1: { a: [0, 0], b: [1, 0], rated: 'yes' } } }],
    [
      'bad-value zones.Z1.outline',
      {
        zones: {
          Z1: {
            outline: [
              [0, 0],
              [1, 0],
            ],
          },
        },
      },
    ],
    [
      'bad-value zones.Z1.area',
      {
        zones: {
          Z1: {
            outline: [
              [0, 0],
              [9, 0],
              [9, 9],
            ],
            area: 'AB',
          },
        },
      },
    ],
    [
      'bad-value jacks.J1.label',
      { outlets: { O1: { at: [0, 0] } }, jacks: { J1: { outlet: 'O1', label: '7' } } },
    ],
    ['bad-value settings.wastePercent', { settings: { wastePercent: 101 } }],
    ['bad-value prices.jack', { prices: { jack: -1 } }],
    ['bad-value job.units', { job: { units: 'yd' } }],
    ['bad-value job.name', { job: { name: 'x'.repeat(401) } }],
    ['bad-value assets.xyz', { assets: { xyz: { type: 'image/png', data: '' } } }],
    [
      'bad-value assets.0123456789abcdef.data',
      { assets: { '0123456789abcdef': { type: 'image/png', data: '<' } } },
    ],
    [
      'bad-value assets.0123456789abcdef.type',
      { assets: { '0123456789abcdef': { type: 'text/html', data: '' } } },
    ],
    [
      'dangling-id devices.D1.level',
      { devices: { D1: { kind: 'kiosk', at: [0, 0], level: 'L2' } } },
    ],
    ['dangling-id jacks.J1.outlet', { jacks: { J1: { outlet: 'O1', label: 'A1' } } }],
    ['unknown-kind devices.D1.kind', { devices: { D1: { kind: 'teapot', at: [0, 0] } } }],
    ['no-length walls.W1', { walls: { W1: { a: [7, 7], b: [7, 7] } } }],
    [
      'no-length pathways.P1',
      {
        pathways: {
          P1: {
            points: [
              [1, 1],
              [1, 1],
              [1, 1],
            ],
          },
        },
      },
    ],
    [
      'no-area zones.Z1.outline',
      {
        zones: {
          Z1: {
            outline: [
              [0, 0],
              [1, 1],
              [2, 2],
            ],
          },
        },
      },
    ],
    ['no-level levels', { levels: {} }],
    [
      'no-picture backgrounds.B1.asset',
      { backgrounds: { B1: { asset: 'ffffffffffffffff', width: 1, height: 1 } } },
    ],
  ])('refuses with %s', (fault, parts) => {
    expect(faults(file(parts))).toEqual([fault]);
  });

  it('names every wall of a loop that has no length anywhere', () => {
    const nowhere = { a: [3, 3], b: [3, 3] };
    expect(faults(file({ walls: { W1: nowhere, W2: nowhere, W3: nowhere } }))).toEqual([
      'no-length walls.W1',
      'no-length walls.W2',
      'no-length walls.W3',
    ]);
  });

  it('refuses a number beyond all numbers, which JSON can write', () => {
    const text = file({ walls: { W1: { a: [0, 0], b: [1, 0], thickness: 7777 } } });
    expect(faults(text.replace('7777', '1e999'))).toEqual(['bad-value walls.W1.thickness']);
  });

  it('refuses a row with the name of an inherited field instead of losing it', () => {
    const row = '{"a":[0,0],"b":[1,0]}';
    expect(faults(file().replace('}', `,"walls":{"__proto__":${row}}}`))).toHaveLength(1);
    expect(faults(file().replace('}', `,"__proto__":${row}}`))).toHaveLength(1);
    expect(faults(file().replace('}', `,"walls":{"constructor":${row}}}`))).toEqual([]);
  });

  it('lists at most twenty faults', () => {
    const walls = Object.fromEntries(
      Array.from({ length: 50 }, (_, i) => [`W${i + 1}`, { a: [0, 0] }]),
    );
    expect(faults(file({ walls }))).toHaveLength(20);
  });

  it('words a fault so that it can be mended', () => {
    expect(message(file({ job: { titel: 'x' } }))).toContain('"titel"');
    expect(message(file({ walls: { W1: { a: [0.5, 0], b: [1, 0] } } }))).toContain(
      'a whole number',
    );
    expect(message(file({ walls: [] }))).toContain('a group in braces');
    expect(message(file({ walls: { W1: { a: 0, b: [1, 0] } } }))).toContain('in square brackets');
    expect(message(file({ job: { units: 'yd' } }))).toContain('"ft" or "m"');
    expect(message(file({ walls: { 'W 1': { a: [0, 0], b: [1, 0] } } }))).toContain('a letter');
  });

  it('never throws, whatever JSON it is given', () => {
    const value = fc.json({ maxDepth: 4 });
    const table = fc.constantFrom(...TABLES, 'assets', 'job');
    fc.assert(
      fc.property(table, value, value, (name, a, b) => {
        readPlan(a, known);
        readPlan(file({ [name]: JSON.parse(a) }), known);
        readPlan(file({ [name]: { W1: JSON.parse(a), W2: JSON.parse(b) } }), known);
      }),
      { seed: 8259, numRuns: 300 },
    );
  });
});

describe('writing a plan file', () => {
  it('gives back the same plan when it is read, pictures included', () => {
    const assets = new Map([
      ['0123456789abcdef', { name: 'Plan.png', type: 'image/png', data: 'AAAA' }],
    ]);
    const back = read(writePlan(restaurant, assets));
    expect(back.plan).toEqual(restaurant);
    expect(back.assets).toEqual(assets);
    expect([...back.plan.tables.zones.keys()]).toEqual([...restaurant.tables.zones.keys()]);
  });

  it('gives the same bytes again, whatever the order of rows and fields was', () => {
    const text = writePlan(restaurant);
    const shuffled = JSON.parse(text, (_, value: unknown) =>
      typeof value === 'object' && value !== null && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).reverse())
        : value,
    ) as object;
    expect(writePlan(read(JSON.stringify(shuffled)).plan)).toBe(text);
  });

  it('writes one row a line, W2 before W10, and ends with a line break', () => {
    const lines = writePlan(restaurant).split('\n');
    const walls = lines
      .filter((line) => /^ {4}"W\d+":/.test(line))
      .map((line) => line.trim().split(':')[0]);
    expect(walls.slice(0, 2)).toEqual(['"W1"', '"W2"']);
    expect(walls[9]).toBe('"W10"');
    expect(lines.at(-1)).toBe('');
  });

  it('keeps names with quotes, line breaks and letters of any language', () => {
    const name = 'Crêpes "Öst"\n東 🍜 \u2028 </script>';
    const plan = {
      tables: { ...emptyPlan().tables, job: new Map([['job', { ...job(emptyPlan()), name }]]) },
    };
    expect(job(read(writePlan(plan)).plan).name).toBe(name);
  });
});

describe('the JSON Schema of the plan file', () => {
  const schema = planFileSchema() as {
    properties: Record<string, { properties?: Record<string, { default?: unknown }> }>;
    required: string[];
    additionalProperties: boolean;
  };

  it('asks for the format and the version alone, and allows no unknown field', () => {
    expect(schema.required).toEqual(['format', 'version']);
    expect(schema.additionalProperties).toBe(false);
    expect(Object.keys(schema.properties)).toEqual(['format', 'version', ...TABLES, 'assets']);
  });

  it('shows the defaults that the program uses', () => {
    const { id: _, ...defaults } = settings(emptyPlan());
    const shown = Object.entries(schema.properties.settings!.properties!).map(([k, v]) => [
      k,
      v.default,
    ]);
    expect(Object.fromEntries(shown)).toEqual(defaults);
  });
});
