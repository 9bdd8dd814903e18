/**
 * Cheapest cable routes over a floor plan.
 *
 * `prepare(site)` builds the network of one level; `route` then answers, for any outlet, the way of least cost to a
 * closet with its segments, wall crossings and lengths, or what bars it.
 */
export type { HomeRuns, Router } from './home-runs.ts';
export { createRouter, homeRuns } from './home-runs.ts';
export { cableElevation } from './plan-site.ts';
export type { Network } from './router.ts';
export { prepare } from './router.ts';
export type {
  Bar,
  CeilingKind,
  NoRoute,
  PathwayKind,
  Route,
  RouteCrossing,
  RouteSegment,
  Site,
  SiteCeiling,
  SiteCloset,
  SiteKeepout,
  SitePathway,
  SitePlace,
  SitePrices,
  SiteWall,
  SiteZone,
  Terminal,
  WallWork,
} from './site.ts';
export { FACE_REACH, JOIN_REACH, MAX_NODES, UNDER_SLAB } from './site.ts';
