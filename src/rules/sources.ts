import type { RuleSource } from './rule.ts';

/** Where rules come from. Addresses and how well each was seen stand in docs/sources.md under the same names. */
export const CABLING = 'ANSI/TIA-568.0 and 568.1';
export const IDENTIFIERS = 'ANSI/TIA-606-C';
export const PATHWAYS = 'ANSI/TIA-569';
export const CODE = 'NFPA 70-2023 (NEC)';
export const UNIVERSITY_GUIDE = 'University telecommunications design guide';
export const UNIVERSITY_WIRING = 'University wiring guidelines';
export const HANDBOOK = 'MIL-HDBK-1012/3';

export const COMMON_PRACTICE: RuleSource = {
  document: 'common practice, no source',
  clause: '',
};
