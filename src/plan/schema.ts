import * as z from 'zod/mini';
import { FAR } from '../base/units.ts';

/**
 * The shape of a plan: one strict schema per table, with the default of each field in one place.
 *
 * Lengths are integer mm, x east and y south from an origin that the job chooses, z up from the ground level's
 * finished floor. Percentages and minutes are integers, money integer cents. Nothing derived is stored.
 */
export const FORMAT_VERSION = 1;

const id = z.string().check(z.regex(/^[A-Za-z][A-Za-z0-9_-]{0,39}$/));
const words = z.string().check(z.maxLength(400));
const coordinate = z.int().check(z.gte(-FAR), z.lte(FAR));
const length = z.int().check(z.gte(0), z.lte(FAR));
const size = z.int().check(z.gte(1), z.lte(FAR));
const point = z.readonly(z.tuple([coordinate, coordinate]));
const outline = z.readonly(z.array(point).check(z.minLength(3), z.maxLength(2000)));
const chain = z.readonly(z.array(point).check(z.minLength(2), z.maxLength(2000)));
const degrees = z.number().check(z.gte(-360), z.lte(360));
const percent = (top: number) => z.int().check(z.gte(0), z.lte(top));
const cents = z.int().check(z.gte(0), z.lte(1_000_000_000));
const minutes = z.int().check(z.gte(0), z.lte(100_000));
const pixel = z.number().check(z.gte(0), z.lte(FAR));
const letter = z.string().check(z.regex(/^[A-Z]$/));
const or = z._default;
/** Whether it is kept from being moved or deleted by mistake. */
const locked = or(z.boolean(), false);

/** `tile` lay-in ceiling with room above it; `open` no ceiling; `hard` closed board or plaster without access. */
export const ceilingKind = z.enum(['tile', 'open', 'hard']);
const ceiling = z.readonly(
  z.strictObject({ kind: or(ceilingKind, 'open'), height: or(length, 2743) }),
);

const job = z.strictObject({
  name: or(words, 'Untitled job'),
  address: or(words, ''),
  client: or(words, ''),
  preparedBy: or(words, ''),
  revision: or(words, 'A'),
  units: or(z.enum(['ft', 'm']), 'ft'),
  /** Where north is, in degrees clockwise from the top of the drawing. */
  north: or(degrees, 0),
});

/** How lengths are found: the factors, prices and allowances of the routing contract, and the limits. */
const settings = z.strictObject({
  /** A foot at the outlet and ten at the closet: industry handbook as quoted by a trade magazine; university standard. */
  outletSlack: or(length, 305),
  fieldLoop: or(length, 0),
  closetLoop: or(length, 3048),
  wastePercent: or(percent(100), 10),
  /** Cable is ordered in whole steps of this: a foot, 304.8 mm exactly, so the one length that is not whole mm. */
  orderStep: or(z.number().check(z.gte(1), z.lte(FAR)), 304.8),
  cordCloset: or(length, 914),
  /** ANSI/TIA-568.0: permanent link at most 90 m, channel at most 100 m. */
  linkLimit: or(size, 90_000),
  channelLimit: or(size, 100_000),
  nearPercent: or(percent(100), 90),
  powerReach: or(length, 1829),
  /** A box of cable: 1000 ft = 304.8 m exactly. */
  boxLength: or(size, 304_800),
  /** For the fill of conduit: 0.24 in, what a government handbook plans four-pair cable with. */
  cableDiameter: or(z.number().check(z.gte(1), z.lte(50)), 6.1),
  tileFactor: or(percent(1000), 100),
  openFactor: or(percent(1000), 120),
  hardFactor: or(percent(1000), 150),
  pathwayFactor: or(percent(1000), 80),
  framedPrice: or(length, 1000),
  masonryPrice: or(length, 2000),
  ratedPrice: or(length, 2000),
  bendPrice: or(length, 100),
  tileClearance: or(length, 150),
  openBelowDeck: or(length, 300),
  hardBelowCeiling: or(length, 50),
});

/** The price book: what one of each costs, and how long one drop takes. All invented until somebody edits them. */
const prices = z.strictObject({
  currency: or(words, '$'),
  cableBox: or(cents, 18_500),
  jack: or(cents, 550),
  plate: or(cents, 250),
  bracket: or(cents, 220),
  ceilingBox: or(cents, 900),
  floorBox: or(cents, 16_500),
  pole: or(cents, 14_000),
  panel24: or(cents, 6_500),
  panel48: or(cents, 11_500),
  support: or(cents, 325),
  /** Drawn ways are bought by the 10 ft length (3.05 m), whole lengths. */
  trayLength: or(cents, 5_500),
  conduitLength: or(cents, 1_600),
  racewayLength: or(cents, 2_200),
  deviceCord: or(cents, 450),
  closetCord: or(cents, 350),
  label: or(cents, 20),
  sleeve: or(cents, 1_800),
  coreDrill: or(cents, 9_500),
  firestop: or(cents, 4_500),
  seal: or(cents, 6_000),
  labourHour: or(cents, 8_500),
  minutesTile: or(minutes, 70),
  minutesOpen: or(minutes, 60),
  minutesHard: or(minutes, 115),
  /** Each further cable to the same outlet, as a share of the first. */
  furtherCablePercent: or(percent(100), 50),
  minutesJob: or(minutes, 480),
  markupPercent: or(percent(1000), 20),
  taxPercent: or(percent(100), 0),
});

const level = z.strictObject({
  name: or(words, 'Ground level'),
  elevation: or(coordinate, 0),
  /** Underside of the structure above the floor of this level. */
  deck: or(length, 3658),
  /** What holds where no zone covers a point. */
  ceiling: or(ceiling, { kind: 'open', height: 3658 }),
  area: or(letter, 'A'),
  /** Turn of the building lines against x, in degrees clockwise as drawn. */
  frameAngle: or(degrees, 0),
});

/** A known length drawn on a picture: two places in picture pixels, and the real length between them. */
const knownLength = z.nullable(
  z.readonly(
    z.strictObject({
      a: z.readonly(z.tuple([z.number(), z.number()])),
      b: z.readonly(z.tuple([z.number(), z.number()])),
      length: size,
    }),
  ),
);

const background = z.strictObject({
  level: or(id, 'L1'),
  name: or(words, ''),
  /** Hash of the picture's bytes; the bytes are kept beside the plan. */
  asset: z.string().check(z.regex(/^[0-9a-f]{16,64}$/)),
  /** Which page of it is shown, where it has pages. */
  page: or(z.int().check(z.gte(1), z.lte(100_000)), 1),
  /** Size of the picture in its own pixels. */
  width: size,
  height: size,
  /** How wide the whole picture is on paper, mm, where that is known; then its scale can be told as a ratio. */
  paper: or(z.nullable(z.number().check(z.gt(0), z.lte(100_000))), null),
  /** How many of its pixels make an inch on paper, as its file says; offered where a printed scale is asked for, and not believed. */
  dots: or(z.nullable(z.number().check(z.gt(0), z.lte(100_000))), null),
  /** Where the picture's top left corner lies, before it is tilted. */
  origin: or(point, [0, 0]),
  mmPerPixel: or(z.number().check(z.gt(0), z.lte(100_000)), 10),
  turn: or(z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]), 0),
  /** Turned further, clockwise, about its middle. */
  tilt: or(z.number().check(z.gte(-45), z.lte(45)), 0),
  /** The part that is shown, in picture pixels from (x0, y0) to (x1, y1); null shows all of it. */
  crop: or(
    z.nullable(z.readonly(z.strictObject({ x0: pixel, y0: pixel, x1: pixel, y1: pixel }))),
    null,
  ),
  opacity: or(percent(100), 60),
  /** Whether it is a photo: it keeps its colours on a dark screen, where a drawing is shown as its negative. */
  photo: or(z.boolean(), false),
  hidden: or(z.boolean(), false),
  /** Whether it stays where it is while somebody draws over it. */
  locked: or(z.boolean(), true),
  /** Those with more lie over those with less; where it is the same, the later id does. */
  order: or(z.int().check(z.gte(-1000), z.lte(1000)), 0),
  /** The length that set the scale; null while nobody has. */
  scale: or(knownLength, null),
  /** The scale that is printed on it, as how many times larger the building is; null where a length set the scale. */
  ratio: or(z.nullable(z.number().check(z.gt(0), z.lte(100_000))), null),
  /** A second length, to see how far the scale is off. */
  check: or(knownLength, null),
});

const zone = z.strictObject({
  level: or(id, 'L1'),
  name: or(words, ''),
  area: or(letter, 'A'),
  outline,
  ceiling: or(ceiling, { kind: 'tile', height: 2743 }),
  /** Elevation of the cable above this level's floor; null follows from the ceiling. */
  cableElevation: or(z.nullable(length), null),
  /** Whether a network closet may stand in it; null follows from its name and its walls. */
  closetMay: or(z.nullable(z.boolean()), null),
  locked,
});

const wall = z.strictObject({
  level: or(id, 'L1'),
  a: point,
  b: point,
  thickness: or(size, 124),
  construction: or(z.enum(['framed', 'masonry', 'insulated']), 'framed'),
  /** Whether the wall stops at the ceiling grid or goes on to the deck. */
  top: or(z.enum(['grid', 'deck']), 'grid'),
  rated: or(z.boolean(), false),
  exterior: or(z.boolean(), false),
  locked,
});

/** A door, a window or a plain opening; it stands in a wall and goes with it. */
const opening = z.strictObject({
  wall: id,
  kind: or(z.enum(['door', 'window', 'opening']), 'door'),
  name: or(words, ''),
  /** How far its middle lies along the wall from the wall's end `a`. */
  along: length,
  width: or(size, 914),
  height: or(size, 2134),
  /** Height of its lower edge above the floor. */
  sill: or(length, 0),
  /** The end of the wall towards which a door is hung, and the side of the line from `a` to `b` to which it opens. */
  hinge: or(z.enum(['a', 'b']), 'a'),
  side: or(z.enum(['left', 'right']), 'right'),
  locked,
});

const keepout = z.strictObject({
  level: or(id, 'L1'),
  name: or(words, 'Keep out'),
  outline,
  clearance: or(length, 0),
  locked,
});

const pathway = z.strictObject({
  level: or(id, 'L1'),
  kind: or(
    z.enum(['hook-line', 'tray', 'conduit', 'raceway', 'sleeve', 'under-slab']),
    'hook-line',
  ),
  name: or(words, ''),
  points: chain,
  /** Above this level's floor; null follows the ceiling. */
  elevation: or(z.nullable(coordinate), null),
  size: or(words, ''),
  /** Whether it is there already, so that nothing of it is bought. */
  existing: or(z.boolean(), false),
  locked,
});

/** A way up: a cable goes by it from the ceiling plane of one level to that of another, straight up or down. */
const riser = z.strictObject({
  level: or(id, 'L1'),
  /** The other level that it comes out on. */
  upper: id,
  name: or(words, 'Riser'),
  at: point,
  size: or(words, ''),
  existing: or(z.boolean(), false),
  locked,
});

/** Places on a level that runs are made to pass, in order from the jack to the closet. */
const pin = z.strictObject({
  level: or(id, 'L1'),
  name: or(words, 'Pin'),
  points: z.readonly(z.array(point).check(z.minLength(1), z.maxLength(50))),
  locked,
});

/** Allowances of one kind of device or one jack; null takes what holds above it: jack, then kind, then job. */
const allowances = {
  outletSlack: or(z.nullable(length), null),
  fieldLoop: or(z.nullable(length), null),
  closetLoop: or(z.nullable(length), null),
  wastePercent: or(z.nullable(percent(100)), null),
  orderStep: or(z.nullable(z.number().check(z.gte(1), z.lte(FAR))), null),
};

const kindAllowances = z.strictObject({ kind: id, ...allowances });

const closet = z.strictObject({
  level: or(id, 'L1'),
  name: or(words, 'Network closet'),
  at: point,
  /** Height of the termination above the floor. */
  height: or(length, 1500),
  ports: or(z.int().check(z.gte(1), z.lte(10_000)), 48),
  locked,
});

const device = z.strictObject({
  level: or(id, 'L1'),
  kind: id,
  name: or(words, ''),
  at: point,
  turn: or(degrees, 0),
  /** Height of the device's port above the floor. */
  height: or(length, 1100),
  /** The device whose jack this one shares; null when it has a jack of its own. */
  host: or(z.nullable(id), null),
  cord: or(length, 2134),
  locked,
});

const outlet = z.strictObject({
  level: or(id, 'L1'),
  at: point,
  mount: or(z.enum(['wall', 'ceiling', 'pole', 'casework', 'floor']), 'wall'),
  height: or(length, 457),
  /** The drawn wall that it hangs on; null where none is drawn. */
  wall: or(z.nullable(id), null),
  /** `hand` once somebody has moved it; until then it follows its device. */
  placed: or(z.enum(['auto', 'hand']), 'auto'),
  locked,
});

/** What was built, as the crew wrote it down: what is null or empty is not recorded yet. Administration records of
 * ANSI/TIA-606 ask of a link for its length and the record of its service: from memory; the rest is common practice. */
const built = z.strictObject({
  /** The lengths printed on the jacket at both ends of the cable; their difference is what lies in the building. */
  start: or(z.nullable(length), null),
  end: or(z.nullable(length), null),
  /** The length by other means than the marks: it goes before them. */
  length: or(z.nullable(length), null),
  /** The port of the panel that it ends on. */
  port: or(z.nullable(z.int().check(z.gte(1), z.lte(10_000))), null),
  test: or(z.nullable(z.enum(['pass', 'fail'])), null),
  /** Initials of whoever built or tested it, and the day. */
  by: or(words, ''),
  on: or(z.string().check(z.regex(/^([0-9]{4}-[0-9]{2}-[0-9]{2})?$/)), ''),
  /** Also the name of the meter's report. */
  remark: or(words, ''),
  /** Where the outlet hung on the plan when it was recorded. */
  at: or(z.nullable(point), null),
});

const jack = z.strictObject({
  outlet: id,
  label: z.string().check(z.regex(/^[A-Z][0-9]{1,4}(-[0-9]{1,2})?$/)),
  /** The device that it serves; null for a spare. */
  device: or(z.nullable(id), null),
  spare: or(z.boolean(), false),
  /** The closet that somebody chose; null takes the one with the shortest cable. */
  closet: or(z.nullable(id), null),
  /** The pin that it is made to pass; null leaves the way free. */
  pin: or(z.nullable(id), null),
  allowances: or(z.nullable(z.readonly(z.strictObject(allowances))), null),
  /** Null while nothing of its cable is recorded as built. */
  built: or(z.nullable(z.readonly(built)), null),
});

const power = z.strictObject({
  level: or(id, 'L1'),
  at: point,
  name: or(words, ''),
  height: or(length, 457),
  locked,
});

/** Words on the drawing, with a line to what they are about where somebody drew one. */
const note = z.strictObject({
  level: or(id, 'L1'),
  at: point,
  text: z.string().check(z.minLength(1), z.maxLength(400)),
  to: or(z.nullable(point), null),
  locked,
});

/** A dimension line between two places; the length follows from them. */
const dimension = z.strictObject({
  level: or(id, 'L1'),
  a: point,
  b: point,
  /** How far the line stands aside from the two places, to the left of the way from `a` to `b` where it is above zero. */
  aside: or(coordinate, 600),
  locked,
});

/** Every table, in the order in which a file lists them. The three singletons hold one row, named after the table. */
export const tableSchemas = {
  job,
  settings,
  prices,
  allowances: kindAllowances,
  levels: level,
  backgrounds: background,
  zones: zone,
  walls: wall,
  openings: opening,
  keepouts: keepout,
  pathways: pathway,
  risers: riser,
  pins: pin,
  closets: closet,
  devices: device,
  outlets: outlet,
  jacks: jack,
  powers: power,
  notes: note,
  dimensions: dimension,
} as const;

export type TableName = keyof typeof tableSchemas;
export const TABLES = Object.keys(tableSchemas) as readonly TableName[];
/** Tables of one row: in a file they are the row itself. */
export const SINGLETONS = ['job', 'settings', 'prices'] as const satisfies readonly TableName[];

/** Fields that name a row of another table; the codec and the integrity of changes both read this. */
export const REFERENCES: { readonly [T in TableName]?: Readonly<Record<string, TableName>> } = {
  backgrounds: { level: 'levels' },
  zones: { level: 'levels' },
  walls: { level: 'levels' },
  openings: { wall: 'walls' },
  keepouts: { level: 'levels' },
  pathways: { level: 'levels' },
  risers: { level: 'levels', upper: 'levels' },
  pins: { level: 'levels' },
  closets: { level: 'levels' },
  devices: { level: 'levels', host: 'devices' },
  outlets: { level: 'levels', wall: 'walls' },
  jacks: { outlet: 'outlets', device: 'devices', closet: 'closets', pin: 'pins' },
  powers: { level: 'levels' },
  notes: { level: 'levels' },
  dimensions: { level: 'levels' },
};

/** The prefix of new ids in each table. */
export const ID_PREFIX: Readonly<Record<TableName, string>> = {
  job: 'job',
  settings: 'settings',
  prices: 'prices',
  allowances: 'A',
  levels: 'L',
  backgrounds: 'B',
  zones: 'Z',
  walls: 'W',
  openings: 'G',
  keepouts: 'K',
  pathways: 'P',
  risers: 'R',
  pins: 'N',
  closets: 'C',
  devices: 'D',
  outlets: 'O',
  jacks: 'J',
  powers: 'E',
  notes: 'T',
  dimensions: 'M',
};
