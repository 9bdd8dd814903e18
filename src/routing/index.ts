/**
 * Cheapest cable routes over a floor plan.
 *
 * `prepare(site)` builds the network of one level; `route` then answers, for any outlet, the way of least cost to a
 * closet with its segments, wall crossings and lengths, or what bars it. `homeRuns(plan)` does so for every jack of a
 * plan, and `createRouter()` remembers what did not change. A network knows no closets: those of a site can be named by
 * their ids, and any other place can be asked about as if one stood there.
 *
 * What a route may do, and what it costs:
 * - In the ceiling plane it goes along the two axes of the frame, along the long faces of walls off the frame, and
 *   along pathways. Under a hard ceiling it goes along the faces of walls or inside them only.
 * - It costs its length by the factor of the ceiling over it or of the pathway, every rise and step at 1, a price for
 *   each wall and for each bend. On the border of two zones it lies in either, whichever is cheaper.
 * - A wall costs half its price at each face that free travel passes: where a route enters or leaves it, sets out into
 *   it, or joins or leaves a pathway inside it. A pathway passes walls and barred areas without a price.
 * - A pathway that follows the ceiling lies, on the border of two zones, at the lower elevation. Conduits, sleeves and
 *   under-slab pathways are joined at their ends, the others anywhere. Where two pathways that can be joined meet, a
 *   cable passes from one to the other. A terminal at most `JOIN_REACH` away joins a pathway from its own height.
 *   At a floor box nothing joins an under-slab pathway but the box's outlet and other under-slab pathways.
 * - Nothing passes between two barred areas that touch. Where a terminal may enter the plane: see `starts.ts`.
 *
 * For sites along the frame the cost is the least there is, exactly; off the frame within 1 mm in tests. Equal
 * costs are decided by fewest bends, then the shorter length, then the one with the least length of its own, so
 * that runs of one closet share theirs. Places are rounded to whole mm and each length is taken between the rounded
 * places, so that sums are exact; in a turned frame a length may differ from that of its drawn ends by a millimetre.
 */
export { ceilingPlane } from './ceiling-plane.ts';
export { studyClosets } from './closet-study.ts';
export type { HomeRuns, Router } from './home-runs.ts';
export { createRouter, homeRuns } from './home-runs.ts';
export { cableElevation } from './plan-site.ts';
export type { Home, Network } from './router.ts';
export { prepare, prepareBuilding } from './router.ts';
export type {
  Bar,
  Building,
  CeilingKind,
  Lie,
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
  SitePin,
  SitePlace,
  SitePrices,
  SiteRiser,
  SiteWall,
  SiteZone,
  Terminal,
  WallWork,
} from './site.ts';
export { FACE_REACH, JOIN_REACH, MAX_NODES, UNDER_SLAB } from './site.ts';
