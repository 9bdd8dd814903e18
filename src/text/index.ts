export * from './format.ts';
export { type Catalogue, type CountKey, type Key, type Translate, t, translator } from './t.ts';
