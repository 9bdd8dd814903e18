import { Fragment, useEffect, useState } from 'react';
import type { Leg } from '../../board/session.ts';
import { hasScale, inLayers } from '../../plan/picture-place.ts';
import type { Background, Plan } from '../../plan/plan.ts';
import type { Survey } from '../../results/types.ts';
import { type Key, t } from '../../text/index.ts';
import { isBlank, isUnplaced } from '../blank.ts';
import {
  useActions,
  useDesk,
  useKinds,
  usePlan,
  useRestingSurvey,
  useSession,
} from '../context.tsx';
import { Button } from '../controls/parts.tsx';
import { PrintedScale } from '../shelf/base.tsx';
import { TOOL } from '../tool-ids.ts';
import { CardHead } from './head.tsx';

/** Nothing is selected: what the open leg is for, and the next useful thing to do. */
export function Nothing() {
  const leg = useSession((s) => s.leg);
  const plan = usePlan();
  const survey = useRestingSurvey();
  const next = nextStep(leg, plan, survey, useDrawn());
  return (
    <>
      <CardHead title={t(`nothing.${leg}`)} />
      <p className="nothing">{t(next)}</p>
      <NextButton next={next} />
      {next === 'next.scale' ? <OtherWays /> : null}
    </>
  );
}

/** Whether a picture of this level is a drawing, whose walls can be taken over. */
function useDrawn(): boolean {
  const { services } = useDesk();
  const level = useSession((s) => s.level);
  const assets = inLayers(usePlan(), level).map(({ asset }) => asset);
  const [drawn, setDrawn] = useState(false);
  const key = assets.join();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the assets by their names, not the list that is made anew
  useEffect(() => {
    let wanted = true;
    void Promise.all(assets.map((asset) => services.isDrawing(asset))).then(
      (all) => wanted && setDrawn(all.includes(true)),
    );
    return () => {
      wanted = false;
    };
  }, [services, key]);
  return drawn;
}

/** For each picture of this level that has no scale: the other way to one, and what a photo wants before. */
function OtherWays() {
  const level = useSession((s) => s.level);
  const without = inLayers(usePlan(), level).filter((picture) => !hasScale(picture));
  const named = without.length > 1;
  return without.map((picture) => (
    <Fragment key={picture.id}>
      <PrintedScale background={picture} named={named} />
      {picture.paper === null && picture.dots === null ? (
        <StraightenFirst picture={picture} named={named} />
      ) : null}
    </Fragment>
  ));
}

/** Takes the tool that makes a photo upright; nothing for a drawing, which lies flat. */
function StraightenFirst({ picture, named }: { picture: Background; named: boolean }) {
  const { services } = useDesk();
  const actions = useActions();
  const { id, asset, name } = picture;
  const [flat, setFlat] = useState(true);
  useEffect(() => {
    let wanted = true;
    void services.isDrawing(asset).then((drawing) => wanted && setFlat(drawing));
    return () => {
      wanted = false;
    };
  }, [services, asset]);
  if (flat) return null;
  const tool = t('base.straighten-first');
  return (
    <Button look="quiet" onClick={() => actions.pick(TOOL.straighten, id)}>
      {named && name ? t('base.of', { tool, name }) : tool}
    </Button>
  );
}

/** Steps that a tool does, and the tool. */
const TOOLS: Partial<Record<NextKey, string>> = {
  'next.scale': TOOL.setScale,
  'next.check': TOOL.checkScale,
  'next.check-printed': TOOL.checkScale,
  'next.first-room': TOOL.room,
  'next.take-walls': TOOL.trace,
  'next.fill-room': TOOL.fillRoom,
  'next.walls': TOOL.wall,
  'next.closet': TOOL.closet,
};

/** Steps that another leg does, and the leg. */
const LEGS: Partial<Record<NextKey, Leg>> = {
  'next.rooms': 'rooms',
  'next.drawn': 'rooms',
  'next.ceilings': 'devices',
  'next.no-runs': 'devices',
  'next.nothing-placed': 'devices',
  'next.clear': 'price',
};

/** The next step at a press: the tool in hand, or the leg open. */
function NextButton({ next }: { next: NextKey }) {
  const actions = useActions();
  const tool = TOOLS[next];
  const leg = LEGS[next];
  const kind = useKinds().keys().next().value;
  if (tool === undefined && leg === undefined && next !== 'next.first-device') return null;
  const go = () => {
    if (leg) actions.set({ leg });
    else if (tool) actions.pick(tool);
    else actions.pick(TOOL.device, kind);
  };
  const label = leg ? t('next.go-leg', { leg: t(`leg.${leg}`) }) : t('next.go-tool');
  return (
    <Button className="next" onClick={go}>
      {label}
    </Button>
  );
}

type NextKey = Exclude<Extract<Key, `next.${string}`>, `next.go-${string}`>;

/** What the pictures still want: a scale, then a check of it. */
function baseStep(pictures: readonly Background[]): NextKey {
  if (!pictures.every(hasScale)) return 'next.scale';
  const unchecked = pictures.find((picture) => picture.check === null);
  if (!unchecked) return 'next.rooms';
  return unchecked.scale === null ? 'next.check-printed' : 'next.check';
}

/**
 * The next useful thing to do on a leg.
 *
 * @param drawn whether the walls of a picture can be taken over
 */
export function nextStep(
  leg: Leg,
  plan: Plan,
  survey: Survey | null,
  drawn: boolean = false,
): NextKey {
  const { backgrounds, zones, walls, closets, devices, jacks } = plan.tables;
  switch (leg) {
    case 'base':
      if (backgrounds.size === 0) return isBlank(plan) ? 'next.bring' : 'next.drawn';
      return baseStep([...backgrounds.values()]);
    case 'rooms':
      if (zones.size === 0 && walls.size > 0) return 'next.fill-room';
      if (zones.size === 0) {
        const scaled = [...backgrounds.values()].some(hasScale);
        return drawn && scaled ? 'next.take-walls' : 'next.first-room';
      }
      return walls.size === 0 ? 'next.walls' : 'next.ceilings';
    case 'devices':
      if (closets.size === 0) return 'next.closet';
      return devices.size === 0 ? 'next.first-device' : 'next.move-device';
    case 'runs':
      if (jacks.size === 0) return 'next.no-runs';
      return closets.size === 0 ? 'next.closet' : 'next.read-run';
    case 'checks':
      if (isUnplaced(plan) && (survey?.findings.length ?? 0) === 0) return 'next.nothing-placed';
      return (survey?.findings.length ?? 0) > 0 ? 'next.mend' : 'next.clear';
    case 'price':
      return isUnplaced(plan) ? 'next.nothing-placed' : 'next.price';
    case 'print':
      return 'next.print';
  }
}
