import { type Message, msg } from '../base/message.ts';

/**
 * The usual cautions, in our own words; they stand on every plan. Practice behind them: ladder and ceiling safety,
 * power by licensed people, asbestos before disturbance, listed firestop systems (29 CFR 1926.1101 for asbestos and
 * 29 CFR 1926.1053 for ladders in the United States; elsewhere the local rules).
 */
export const CAUTIONS: readonly Message[] = [
  msg(
    'Verify with local code and the authority that permits the work. This sheet is not a permit.',
  ),
  msg(
    'Ladders: firm level footing, not the top two steps, never alone, nobody under an open ceiling.',
  ),
  msg(
    'Power: by a licensed electrician only. Treat every wire above a ceiling as live, and keep data cable apart from power as local code says.',
  ),
  msg(
    'Before a ceiling, wall or floor is opened: have it surveyed for asbestos, and for lead paint.',
  ),
  msg(
    'Holes in fire-rated walls and floors: a listed firestop system, put in by trained people, on the day of the hole.',
  ),
  msg(
    'Where the space above a ceiling carries return air, use plenum cable or what local code asks.',
  ),
  msg('No core or anchor in a slab that may be post-tensioned before it is scanned.'),
];

/** How the sheet is to be read. */
export const READING: readonly Message[] = [
  msg('One unbroken cable from each jack to the closet, labelled at both ends; no splices.'),
  msg(
    'Heights are to the middle of the outlet, above the finished floor. Lengths: cable schedule.',
  ),
];
