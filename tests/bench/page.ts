import { readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { inMarkdown, type Section } from './table.ts';

const PAGE = new URL('../../docs/performance.md', import.meta.url);

/** Puts tables into their places on the page of measurements, with the machine they were taken on. */
export function writePage(sections: readonly Section[], day: string): void {
  let text = readFileSync(PAGE, 'utf8');
  const machine = `Taken on ${day}: ${cpus().length} shared cores (${cpus()[0]!.model.trim()}), Node ${process.versions.node}.`;
  text = placed(text, 'machine', machine);
  for (const section of sections) text = placed(text, section.name, inMarkdown(section));
  writeFileSync(PAGE, text);
}

/** The text with this between the marks of that name. */
function placed(text: string, name: string, content: string): string {
  const [from, to] = [`<!-- ${name} -->`, `<!-- end of ${name} -->`];
  const [start, end] = [text.indexOf(from), text.indexOf(to)];
  if (start < 0 || end < start) throw new Error(`the page has no place for ${name}`);
  return `${text.slice(0, start + from.length)}\n${content}\n${text.slice(end)}`;
}
