import { en } from './en.ts';

/** The names of the gaps in a text: `saved {time}` has `time`. */
type Gaps<S extends string> = S extends `${string}{${infer Gap}}${infer Rest}`
  ? Gap | Gaps<Rest>
  : never;

/** Name of a text. */
export type Key = keyof typeof en;

/** A language: every key of the English catalogue. A missing one does not compile. */
export type Catalogue = Readonly<Record<Key, string>>;

type Params<K extends Key> = Readonly<Record<Gaps<(typeof en)[K]>, string | number>>;
type Rest<K extends Key> = [Gaps<(typeof en)[K]>] extends [never] ? [] : [params: Params<K>];

/** Keys that come in pairs, `rooms.one` and `rooms.other`, and name their number `count`. */
export type CountKey = Key extends infer K
  ? K extends `${infer Stem}.other`
    ? Stem
    : never
  : never;

export interface Translate {
  /** The text of a key with its gaps filled. */
  <K extends Key>(key: K, ...rest: Rest<K>): string;
  /** The text for a number of things, by the plural rule of the language. */
  count(stem: CountKey, count: number, shown?: string): string;
}

const fill = (text: string, params: Readonly<Record<string, string | number>>): string =>
  text.replace(/\{(\w+)\}/g, (gap, name: string) => String(params[name] ?? gap));

/** The translating function of a language. @param language tag for the plural rule, such as `en` */
export function translator(catalogue: Catalogue, language: string): Translate {
  const rule = new Intl.PluralRules(language);
  const translate = (key: Key, params: Readonly<Record<string, string | number>> = {}) =>
    fill(catalogue[key], params);
  const count = (stem: CountKey, number: number, shown = String(number)) =>
    translate(`${stem}.${rule.select(number) === 'one' ? 'one' : 'other'}` as Key, {
      count: shown,
    });
  return Object.assign(translate, { count }) as Translate;
}

export const t: Translate = translator(en, 'en');
