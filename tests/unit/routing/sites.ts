import type { Site, SiteWall, Terminal } from '../../../src/routing/index.ts';

/** The prices of a plan's defaults. */
export const PRICES: Site['prices'] = {
  tileFactor: 100,
  openFactor: 120,
  hardFactor: 150,
  pathwayFactor: 80,
  framed: 1000,
  masonry: 2000,
  rated: 2000,
  bend: 100,
};

export const wall = (
  id: string,
  fields: Partial<SiteWall> & Pick<SiteWall, 'a' | 'b'>,
): SiteWall => ({
  id,
  thickness: 100,
  construction: 'framed',
  top: 'deck',
  rated: false,
  exterior: false,
  ...fields,
});

/** A room of 12 by 9 m inside its exterior walls, lay-in ceiling at 2.70 m, cable at 2.85 m, closet at (1, 8). */
export function room(extra: Partial<Site> = {}): Site {
  const { walls = [], ...rest } = extra;
  const exterior = { exterior: true, thickness: 200 } as const;
  return {
    id: 'L1',
    elevation: 0,
    frameAngle: 0,
    ceiling: { kind: 'tile', elevation: 2850, height: 2700 },
    zones: [],
    keepouts: [],
    pathways: [],
    closets: [{ id: 'C1', at: [1000, 8000], height: 1500 }],
    prices: PRICES,
    ...rest,
    walls: [
      wall('north', { a: [-100, -100], b: [12100, -100], ...exterior }),
      wall('east', { a: [12100, -100], b: [12100, 9100], ...exterior }),
      wall('south', { a: [-100, 9100], b: [12100, 9100], ...exterior }),
      wall('west', { a: [-100, -100], b: [-100, 9100], ...exterior }),
      ...walls,
    ],
  };
}

/** An outlet on a pole at (10, 1). */
export const POLE: Terminal = { at: [10000, 1000], height: 450, mount: 'pole', wall: null };
