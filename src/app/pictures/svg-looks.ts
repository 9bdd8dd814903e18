import type { Element } from './xml.ts';

/** Properties that decide how a shape is drawn; `display` alone is not handed down (SVG 1.1, appendix N). */
const PROPERTIES = [
  'color',
  'display',
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-dasharray',
  'stroke-opacity',
  'stroke-width',
  'visibility',
] as const;

/** The properties of an element, its own and those handed down to it. */
export type Looks = Readonly<Partial<Record<(typeof PROPERTIES)[number], string>>>;

/** A rule of a style sheet: what it is for, and what it says. */
export interface Rules {
  readonly selector: string;
  readonly weight: number;
  readonly looks: Looks;
}

/** Rules of a style sheet whose selectors are one name, class or id, as drawing programs write them; others are left out. */
export function readRules(sheet: string): Rules[] {
  const rules: Rules[] = [];
  const text = sheet.replace(/\/\*[\s\S]*?\*\//g, '');
  for (const [, selectors, inside] of text.matchAll(/([^{}]+)\{([^{}]*)\}/g)) {
    for (const selector of selectors!.split(',').map((s) => s.trim())) {
      if (!/^[.#]?[\w-]+$/.test(selector)) continue;
      const weight = selector.startsWith('#') ? 2 : selector.startsWith('.') ? 1 : 0;
      rules.push({ selector, weight, looks: declarations(inside!) });
    }
  }
  return rules;
}

function declarations(text: string): Looks {
  const looks: Record<string, string> = {};
  for (const part of text.split(';')) {
    const colon = part.indexOf(':');
    if (colon < 0) continue;
    const value = part.slice(colon + 1).replace(/!important/i, '');
    looks[part.slice(0, colon).trim()] = value.trim();
  }
  return looks as Looks;
}

function fits({ name, attributes }: Element, selector: string): boolean {
  if (selector.startsWith('#')) return attributes.id === selector.slice(1);
  if (selector.startsWith('.'))
    return (attributes.class ?? '').split(/\s+/).includes(selector.slice(1));
  return name === selector;
}

/** How an element is drawn: by its `style`, then the rules that name it, then its attributes, then what is above it. */
export function looksOf(element: Element, above: Looks | null, rules: readonly Rules[]): Looks {
  const { display: _, ...handed } = above ?? {};
  const looks: Record<string, string> = { ...handed };
  const put = (more: Readonly<Record<string, string | undefined>>) => {
    for (const key of PROPERTIES) {
      const value = more[key];
      if (value !== undefined && value !== 'inherit') looks[key] = value;
    }
  };
  put(element.attributes);
  for (const weight of [0, 1, 2])
    for (const rule of rules)
      if (rule.weight === weight && fits(element, rule.selector)) put(rule.looks);
  put(declarations(element.attributes.style ?? ''));
  return looks;
}

/** Colours that drawing programs write by name; others stay as they are. */
const NAMED: Readonly<Record<string, string>> = {
  black: '#000000',
  white: '#ffffff',
  red: '#ff0000',
  green: '#008000',
  blue: '#0000ff',
  gray: '#808080',
  grey: '#808080',
  silver: '#c0c0c0',
  yellow: '#ffff00',
};

/** A paint as `#rrggbb`; null for one that shows nothing, or where nothing is said. */
export function inkOf(
  paint: string | undefined,
  current: string | undefined,
  opacity: string | undefined,
): string | null {
  const text = (paint ?? '').trim().toLowerCase();
  if (text === '' || text === 'none' || text === 'transparent') return null;
  if (opacity !== undefined && Number.parseFloat(opacity) === 0) return null;
  if (text === 'currentcolor') return inkOf(current ?? 'black', undefined, undefined);
  const short = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/.exec(text);
  if (short)
    return `#${short
      .slice(1)
      .map((digit) => digit + digit)
      .join('')}`;
  const parts = /^rgba?\(\s*([\d.]+%?)[\s,]+([\d.]+%?)[\s,]+([\d.]+%?)/.exec(text);
  if (parts) return `#${parts.slice(1).map(channel).join('')}`;
  return NAMED[text] ?? text;
}

const channel = (text: string): string => {
  const value = Number.parseFloat(text) * (text.endsWith('%') ? 2.55 : 1);
  return Math.round(Math.min(255, value)).toString(16).padStart(2, '0');
};
