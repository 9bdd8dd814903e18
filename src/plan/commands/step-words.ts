import { type Message, msg } from '../../base/message.ts';
import type { Plan, Ref } from '../plan.ts';
import type { TableName } from '../schema.ts';

const WORDS: Readonly<Record<TableName, string>> = {
  job: 'job',
  settings: 'settings',
  prices: 'price book',
  allowances: 'allowances of a kind',
  levels: 'level',
  backgrounds: 'background',
  zones: 'room',
  walls: 'wall',
  openings: 'opening',
  keepouts: 'keep-out',
  pathways: 'pathway',
  risers: 'riser',
  pins: 'pin',
  closets: 'network closet',
  devices: 'device',
  outlets: 'outlet',
  jacks: 'jack',
  powers: 'power outlet',
  notes: 'note',
  dimensions: 'dimension line',
};

/** What a step is about, in words: `device A3`, `wall`, `5 things`. */
export function nameOf(plan: Plan, refs: readonly Ref[]): string {
  const walls = refs.filter((ref) => ref.table === 'walls').length;
  const rooms = refs.filter((ref) => ref.table === 'zones').length;
  if (rooms === 1 && walls > 0 && walls + rooms === refs.length) return 'room with its walls';
  if (refs.length !== 1) return `${refs.length} things`;
  const { table, id } = refs[0]!;
  const label = [...plan.tables.jacks.values()].find(
    (jack) =>
      (table === 'devices' && jack.device === id) ||
      (table === 'outlets' && jack.outlet === id) ||
      (table === 'jacks' && jack.id === id),
  )?.label;
  return label ? `${WORDS[table]} ${label}` : WORDS[table];
}

/** What is said of locked rows that were asked for among others. */
export const stayedNotice = (stayed: number): { notice?: Message } =>
  stayed === 0
    ? {}
    : {
        notice:
          stayed === 1
            ? msg('1 locked thing stayed as it is.')
            : msg('{count} locked things stayed as they are.', { count: stayed }),
      };
