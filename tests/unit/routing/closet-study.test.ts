import { describe, expect, it } from 'vitest';
import { makeRow, type Plan } from '../../../src/plan/plan.ts';
import { unfitFor } from '../../../src/plan/unfit-rooms.ts';
import { homeRuns, studyClosets } from '../../../src/routing/index.ts';
import { officePlan } from '../../bench/office.ts';

const study = (plan: Plan) => studyClosets(plan, homeRuns(plan).runs);

/** The plan with one more closet. */
function withCloset(
  plan: Plan,
  fields: { level: string; at: readonly [number, number]; height: number },
): Plan {
  const { level, at, height } = fields;
  const row = { level, at, height };
  const closets = new Map(plan.tables.closets).set('C9', makeRow('closets', 'C9', row));
  return { tables: { ...plan.tables, closets } };
}

function withSettings(plan: Plan, fields: object): Plan {
  const settings = makeRow('settings', 'settings', fields);
  return { tables: { ...plan.tables, settings: new Map([['settings', settings]]) } };
}

function withJack(plan: Plan, id: string, fields: object): Plan {
  const jack = { ...plan.tables.jacks.get(id)!, ...fields };
  return { tables: { ...plan.tables, jacks: new Map(plan.tables.jacks).set(id, jack) } };
}

describe('one more closet', () => {
  const plan = officePlan({ walls: 60, jacks: 40 });
  const before = homeRuns(plan).runs;

  it('saves what the runs of the plan with that closet are shorter by, and moves those', () => {
    const { best, places } = study(plan);
    expect(places).toBeGreaterThan(1);
    const after = homeRuns(withCloset(plan, best!)).runs;
    const moved = after.filter((run) => run.closet === 'C9');
    expect(moved.map((run) => run.jack)).toEqual(best!.nearer);
    const sum = (runs: typeof before) => runs.reduce((total, run) => total + run.path, 0);
    expect(best!.saves).toBe(sum(before) - sum(after));
    expect(best!.saves).toBeGreaterThan(0);
  });

  it('stands where it brings most runs under their limit, before it stands where it saves most', () => {
    const longest = Math.max(...before.map((run) => run.cable));
    const tight = withSettings(plan, { linkLimit: longest - 1 });
    const { best } = study(tight);
    const over = homeRuns(tight).runs.filter((run) => run.status === 'over');
    expect(over.length).toBeGreaterThan(0);
    expect(best!.relieved).toEqual(over.map((run) => run.jack));
    const after = homeRuns(withCloset(tight, best!)).runs;
    expect(after.filter((run) => run.status === 'over')).toEqual([]);
  });

  it('keeps out of a room that its name or its walls say is cold, and tells what it passed over', () => {
    const { best } = study(plan);
    const zone = plan.tables.zones.get(best!.zone!)!;
    const named = (name: string): Plan => {
      const zones = new Map(plan.tables.zones).set(zone.id, { ...zone, name });
      return { tables: { ...plan.tables, zones } };
    };
    for (const [name, unfit] of [
      ['Walk-in cooler', 'cold'],
      ['Dish room', 'wet'],
      ['Kitchen', 'hot'],
      ['Main dining', 'public'],
    ]) {
      const other = study(named(name!));
      expect(other.best!.zone).not.toBe(zone.id);
      expect(other.passed).toEqual({ gain: best, unfit });
    }
    expect(study(named('Office')).best).toEqual(best);
    const said = (closetMay: boolean, name: string): Plan => {
      const zones = new Map(plan.tables.zones).set(zone.id, { ...zone, name, closetMay });
      return { tables: { ...plan.tables, zones } };
    };
    expect(study(said(true, 'Kitchen')).best).toEqual(best);
    expect(study(said(false, 'Office')).passed).toEqual({ gain: best, unfit: 'said' });
    const walls = new Map(plan.tables.walls);
    zone.outline.forEach((a, i) => {
      const b = zone.outline[(i + 1) % zone.outline.length]!;
      const wall = { level: zone.level, a, b, construction: 'insulated' } as const;
      walls.set(`W9${i}`, makeRow('walls', `W9${i}`, wall));
    });
    expect(unfitFor({ tables: { ...plan.tables, walls } }, zone)).toBe('cold');
    expect(unfitFor(plan, zone)).toBe(null);
  });

  it('leaves runs where they are that somebody gave a closet', () => {
    const first = study(plan).best!.nearer[0]!;
    expect(study(withJack(plan, first, { closet: 'C1' })).best!.nearer).not.toContain(first);
  });

  it('is nothing where no jack is', () => {
    const none = { tables: { ...plan.tables, jacks: new Map() } } as Plan;
    expect(study(none)).toEqual({ places: 0, best: null, passed: null });
  });

  it('has a link to the closet that is there, as long as a run between the two', () => {
    const { best } = study(plan);
    const closet = plan.tables.closets.get('C1')!;
    const outlet = makeRow('outlets', 'O9', {
      level: 'L1',
      at: closet.at,
      height: closet.height,
      mount: 'pole',
    });
    const jack = makeRow('jacks', 'J9', { outlet: 'O9', label: 'Z9', closet: 'C9' });
    const both = withCloset(plan, best!);
    const tables = {
      ...both.tables,
      outlets: new Map([['O9', outlet]]),
      jacks: new Map([['J9', jack]]),
    };
    expect(homeRuns({ tables }).runs[0]!.path).toBe(best!.link);
  });
});
