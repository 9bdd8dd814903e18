import type { SitePrices, SiteWall, WallWork } from './site.ts';

/** What passing a wall takes. */
export interface Passing {
  readonly work: WallWork;
  readonly firestop: boolean;
  /** Equivalent mm. */
  readonly price: number;
  /** No free travel; only a drawn pathway passes. */
  readonly barred: boolean;
}

/**
 * What one passage of a wall takes, at the elevation of the cable.
 *
 * @param reaches whether the wall reaches the cable's elevation although it stops at the ceiling grid
 */
export function passing(
  wall: Pick<SiteWall, 'construction' | 'top' | 'rated' | 'exterior'>,
  prices: SitePrices,
  reaches = false,
): Passing {
  const firestop = wall.rated;
  if (wall.exterior || wall.construction === 'insulated')
    return { work: 'seal', firestop, price: 0, barred: true };
  if (wall.top === 'grid' && !wall.rated && !reaches)
    return { work: 'none', firestop, price: 0, barred: false };
  const masonry = wall.construction === 'masonry';
  const price = (masonry ? prices.masonry : prices.framed) + (wall.rated ? prices.rated : 0);
  return { work: masonry ? 'core' : 'sleeve', firestop, price, barred: false };
}
