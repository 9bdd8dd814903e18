import type { Outlet, Wall, Zone } from '../../plan/plan.ts';
import { t } from '../../text/index.ts';
import type { Option } from '../controls/choices.tsx';

type Choices<V extends string> = () => readonly Option<V>[];

export const CEILINGS: Choices<Zone['ceiling']['kind']> = () => [
  { value: 'tile', label: t('ceiling.tile') },
  { value: 'open', label: t('ceiling.open') },
  { value: 'hard', label: t('ceiling.hard') },
];

export const CONSTRUCTIONS: Choices<Wall['construction']> = () => [
  { value: 'framed', label: t('wall.framed') },
  { value: 'masonry', label: t('wall.masonry') },
  { value: 'insulated', label: t('wall.insulated') },
];

export const TOPS: Choices<Wall['top']> = () => [
  { value: 'grid', label: t('wall.grid') },
  { value: 'deck', label: t('wall.deck') },
];

export const MOUNTS: Choices<Outlet['mount']> = () => [
  { value: 'wall', label: t('mount.wall') },
  { value: 'ceiling', label: t('mount.ceiling') },
  { value: 'pole', label: t('mount.pole') },
  { value: 'casework', label: t('mount.casework') },
  { value: 'floor', label: t('mount.floor') },
];

export const PATHWAYS: Choices<
  'hook-line' | 'tray' | 'conduit' | 'raceway' | 'sleeve' | 'under-slab'
> = () => [
  { value: 'hook-line', label: t('pathway.hook-line') },
  { value: 'tray', label: t('pathway.tray') },
  { value: 'conduit', label: t('pathway.conduit') },
  { value: 'raceway', label: t('pathway.raceway') },
  { value: 'sleeve', label: t('pathway.sleeve') },
  { value: 'under-slab', label: t('pathway.under-slab') },
];

/** The letters of service areas; I and O are left out, since they read as 1 and 0. */
export const AREAS: Choices<string> = () =>
  [...'ABCDEFGHJKLMNPQRSTUVWXYZ'].map((letter) => ({ value: letter, label: letter }));
