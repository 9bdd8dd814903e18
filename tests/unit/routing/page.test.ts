import { execFileSync } from 'node:child_process';
import {
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { emptyPlan, settings } from '../../../src/plan/plan.ts';
import { FACE_REACH, JOIN_REACH, MAX_NODES, UNDER_SLAB } from '../../../src/routing/index.ts';
import { routingPictures } from '../../routing-pictures.ts';
import { metres } from './svg.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const page = readFileSync(join(root, 'docs/routing.md'), 'utf8');
const plain = page.replace(/\s+/g, ' ');
const pictures = routingPictures();

/** What a sum of the page comes to, in hundredths. */
const comesTo = (sum: string): number =>
  sum
    .split('+')
    .map((term) => term.split('×').reduce((product, factor) => product * Number(factor), 1))
    .reduce((a, b) => a + b);

describe('the page about routing', () => {
  it('has sums that can be redone', () => {
    const sums = [...page.matchAll(/`([\d.+× ]+) = ([\d.]+)`/g)];
    expect(sums.length).toBeGreaterThan(15);
    for (const [, sum, result] of sums)
      expect(`${sum} = ${comesTo(sum!).toFixed(2)}`).toBe(`${sum} = ${result}`);
  });

  it.each([...pictures])('shows %s as the router draws it today', (name, svg) => {
    expect(readFileSync(join(root, 'docs/pictures', name), 'utf8')).toBe(svg);
    const [, alt, below] =
      new RegExp(`!\\[([^\\]]+)\\]\\(pictures/${name}\\)\n([^]*)`).exec(page) ?? [];
    expect(svg).toContain(`<title>${alt}</title>`);
    // The path under the picture is the first that the text below it comes to.
    const path = /path ([\d.]+) =/.exec(svg)![1]!;
    if (/\d/.test(name) || name.includes('strange'))
      expect(below!.slice(0, 1200)).toContain(`= ${path}\``);
  });

  it('shows every picture that is there', () => {
    const there = readdirSync(join(root, 'docs/pictures')).filter((f) => f.startsWith('routing-'));
    expect(there.sort()).toEqual([...pictures.keys()].sort());
  });

  it('names the numbers that a plan starts with', () => {
    const s = settings(emptyPlan());
    const percent = (value: number) => (value / 100).toFixed(2);
    for (const words of [
      `| lay-in tiles | anywhere, ${metres(s.tileClearance)} above the tiles | ${percent(s.tileFactor)} |`,
      `| open structure | anywhere, ${metres(s.openBelowDeck)} below the deck | ${percent(s.openFactor)} |`,
      `inside them, ${metres(s.hardBelowCeiling)} below the ceiling | ${percent(s.hardFactor)} |`,
      `along it | ${percent(s.pathwayFactor)} |`,
      `framed wall up to the deck: ${metres(s.framedPrice)} for each passage`,
      `masonry wall up to the deck: ${metres(s.masonryPrice)}, one core drill`,
      `fire-rated wall: ${metres(s.ratedPrice)} more`,
      `a bend: ${metres(s.bendPrice)} |`,
      `to ${metres(-UNDER_SLAB)} below the floor`,
      `ends within ${metres(JOIN_REACH)}`,
      `at most ${metres(FACE_REACH)} away`,
      `${MAX_NODES.toLocaleString('en')} nodes`,
    ])
      expect(plain).toContain(words);
  });

  it('has an example that prints what the page says', () => {
    const example = /```ts\n(.*?)```/s.exec(page)![1]!;
    const printed = /It prints:\n\n```text\n(.*?)```/s.exec(page)![1]!;
    const folder = mkdtempSync(join(tmpdir(), 'routing-page-'));
    symlinkSync(join(root, 'src'), join(folder, 'src'));
    writeFileSync(join(folder, 'example.ts'), example);
    const args = ['--import', 'tsx', join(folder, 'example.ts')];
    const out = execFileSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
    rmSync(folder, { recursive: true });
    expect(out).toBe(printed);
  }, 60_000);
});
