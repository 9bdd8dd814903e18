/** What went wrong while reading somebody's data: a code to test for, a place, and the values for its words. */
export interface Issue {
  /** Stable name of the fault, such as `unknown-field`. */
  readonly code: string;
  /** Where: `walls.W3.thickness`; empty for the whole. */
  readonly path: string;
  /** One sentence that says what is wrong and what to do. */
  readonly message: string;
}

export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** What went well, with its value. */
export const ok = <T>(value: T): Result<T> => ({ ok: true, value });

/** What went wrong, as one issue; `path` is empty for the whole. */
export function fail(
  code: string,
  message: string,
  path = '',
): { ok: false; issues: readonly Issue[] } {
  return { ok: false, issues: [{ code, path, message }] };
}
