/** A place on a level: [x east, y south] in mm from the level's origin. */
export type Point = readonly [x: number, y: number];
