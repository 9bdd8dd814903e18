import type { Leg } from '../../board/session.ts';
import type { Plan } from '../../plan/plan.ts';
import type { Survey } from '../../results/types.ts';
import { type Key, t } from '../../text/index.ts';
import { usePlan, useSession } from '../context.tsx';
import { CardHead } from './head.tsx';

/** Nothing is selected: what the open leg is for, and the next useful thing to do. */
export function Nothing() {
  const leg = useSession((s) => s.leg);
  const plan = usePlan();
  const survey = useSession((s) => s.survey);
  return (
    <>
      <CardHead title={t(`nothing.${leg}`)} />
      <p className="nothing">{t(nextStep(leg, plan, survey))}</p>
    </>
  );
}

type NextKey = Extract<Key, `next.${string}`>;

/** The next useful thing to do on a leg. */
export function nextStep(leg: Leg, plan: Plan, survey: Survey | null): NextKey {
  const { backgrounds, zones, walls, closets, devices, jacks } = plan.tables;
  switch (leg) {
    case 'base':
      if (backgrounds.size === 0) return 'next.bring';
      if ([...backgrounds.values()].some((b) => b.scale === null)) return 'next.scale';
      return [...backgrounds.values()].some((b) => b.check === null) ? 'next.check' : 'next.rooms';
    case 'rooms':
      if (zones.size === 0) return 'next.first-room';
      return walls.size === 0 ? 'next.walls' : 'next.ceilings';
    case 'devices':
      if (closets.size === 0) return 'next.closet';
      return devices.size === 0 ? 'next.first-device' : 'next.move-device';
    case 'runs':
      if (jacks.size === 0) return 'next.no-runs';
      return closets.size === 0 ? 'next.closet' : 'next.read-run';
    case 'checks':
      return (survey?.findings.length ?? 0) > 0 ? 'next.mend' : 'next.clear';
    case 'price':
      return 'next.price';
    case 'print':
      return 'next.print';
  }
}
