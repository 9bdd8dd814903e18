import type { History } from '../plan/history.ts';
import type { Plan } from '../plan/plan.ts';
import type { Asset, AssetPort } from '../ports/ports.ts';

/** Hex digits of a picture's name: 128 bits of its SHA-256 (FIPS 180-4), far beyond chance meetings. */
const DIGITS = 32;

/**
 * The name of a picture: the first digits of the SHA-256 of its bytes, in hex.
 *
 * @throws where the page is neither https nor localhost: the browser then offers no hash
 */
export async function hashOf(bytes: Uint8Array): Promise<string> {
  const whole = await sha256(bytes);
  return whole.slice(0, DIGITS);
}

/** The whole SHA-256 in hex. */
export async function sha256(bytes: Uint8Array): Promise<string> {
  if (!globalThis.crypto?.subtle)
    throw new Error(
      'pictures can be kept only on a page that was opened over https or on localhost',
    );
  const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The pictures that a plan shows. */
export const assetsOf = (plan: Plan): Set<string> =>
  new Set([...plan.tables.backgrounds.values()].map((background) => background.asset));

/** The pictures that a plan shows or may show again after undo or redo. */
export function assetsOfHistory(history: History): Set<string> {
  const wanted = assetsOf(history.plan);
  for (const step of history.steps) {
    for (const { before, after } of step.changes) {
      for (const row of [before, after]) if (row && 'asset' in row) wanted.add(row.asset);
    }
  }
  return wanted;
}

/** Pictures in memory alone, for a browser that keeps nothing. */
export function memoryAssets(): AssetPort {
  const kept = new Map<string, Asset>();
  return {
    get: async (hash) => kept.get(hash) ?? null,
    put: async (asset) => {
      kept.set(asset.hash, asset);
    },
    prune: async (wanted) => {
      for (const hash of kept.keys()) if (!wanted.has(hash)) kept.delete(hash);
    },
  };
}
