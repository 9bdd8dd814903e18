import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { run } from '../../../src/cli/command.ts';
import { kinds } from '../../../src/kinds/index.ts';
import { FORMAT_NAME } from '../../../src/plan/codec.ts';
import { FORMAT_VERSION } from '../../../src/plan/schema.ts';
import { formatFields } from './format-fields.ts';

const page = readFileSync(new URL('../../../docs/plan-format.md', import.meta.url), 'utf8');

/** The rows of the table under a heading of the page, without its head. */
function tableUnder(heading: string): string[][] {
  const part = page.split(/^## /m).find((text) => text.startsWith(`${heading}\n`)) ?? '';
  return part
    .split('\n')
    .filter((line) => line.startsWith('| '))
    .slice(2)
    .map((line) => line.slice(1, -1).split('|'))
    .map((cells) => cells.map((cell) => cell.trim()));
}

describe('the page about the plan file', () => {
  it.each([...formatFields()])('lists the fields of %s as the schema has them', (part, fields) => {
    const rows = tableUnder(`\`${part}\``);
    expect(rows.map(([field, value, , fallback]) => [field, value, fallback])).toEqual(fields);
    for (const [field, , , , meaning] of rows) expect(`${field} ${meaning}`).toMatch(/\S\.$/);
  });

  it('has no part that the file has not', () => {
    const parts = [...page.matchAll(/^## `(\w+)`$/gm)].map(([, part]) => part);
    expect(parts).toEqual([...formatFields().keys()]);
  });

  it('gives every number its unit', () => {
    // Counts, places in an order and ratios have none.
    const bare = ['`ports`', '`page`', '`order`', '`ratio`'];
    for (const part of formatFields().keys()) {
      for (const [field, value, unit] of tableUnder(`\`${part}\``)) {
        if (!/number|\[x, y\]/.test(value!) || bare.includes(field!)) continue;
        expect(`${part}.${field}: ${unit}`).toMatch(/: (mm|cents|minutes|%|degrees|pixels)/);
      }
    }
  });

  it('lists every kind of device', () => {
    expect(tableUnder('Device kinds').map(([kind]) => kind)).toEqual(
      [...kinds.keys()].map((id) => `\`${id}\``),
    );
  });

  it('names the format and the version that are written', () => {
    expect(page).toContain(`\`"${FORMAT_NAME}"\`. \`version\` is ${FORMAT_VERSION};`);
  });

  it('shows a plan that can be read, and says of it what the program says', async () => {
    const example = /```json\n(.*?)```/s.exec(page)![1]!;
    expect(example.trim().split('\n').length).toBeLessThanOrEqual(12);
    const folder = mkdtempSync(join(tmpdir(), 'page-'));
    writeFileSync(join(folder, 'kiosk.json'), example);
    let said = '';
    const out = (text: string) => {
      said += text;
    };
    const code = await run(['kiosk.json'], { folder, now: new Date(0), out, error: out });
    rmSync(folder, { recursive: true });
    expect([code, said]).toEqual([0, expect.stringContaining('23.10 m')]);
    expect(page).toContain('run A1 takes 23.10 m of cable');
  });
});
