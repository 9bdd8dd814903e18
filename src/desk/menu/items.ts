import type { SessionActions } from '../../board/session.ts';
import type { Point } from '../../geometry/point.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import type { CommandArgs, CommandName } from '../../plan/commands/index.ts';
import { isLocked } from '../../plan/locks.ts';
import { type Plan, type Ref, refKey } from '../../plan/plan.ts';
import { alike, inSameRoom } from '../../plan/same.ts';
import { t } from '../../text/index.ts';
import { kindName, nameOf } from '../names.ts';

/** Something that can be done at a place of the board. */
export interface MenuItem {
  readonly label: string;
  /** Items of one group stand together. */
  readonly group: 'thing' | 'place' | 'delete';
  run(): void;
}

/** Where a menu was asked for, and what lies there. */
export interface MenuPlace {
  readonly at: Point;
  readonly refs: readonly Ref[];
}

/** What the menu asks and tells the session. */
export interface MenuSession {
  readonly plan: Plan;
  readonly level: string;
  readonly selection: readonly Ref[];
  readonly actions: Pick<SessionActions, 'ask' | 'run' | 'select'>;
}

/** How far beside the original a copy is put, mm. */
const BESIDE: Point = [600, 600];

/** The things that a menu is about: the selection where it was asked for on one of it, else what lies on top there. */
export function menuRefs(
  { selection }: Pick<MenuSession, 'selection'>,
  place: MenuPlace,
): readonly Ref[] {
  const top = place.refs[0];
  if (!top) return [];
  const picked = selection.some((ref) => ref.table === top.table && ref.id === top.id);
  return picked ? selection : [top];
}

/**
 * What can be done: about the things under the pointer, or what can be placed where nothing is. A command that could
 * not be carried out is left out, by its own answer.
 */
export function menuItems(
  session: MenuSession,
  kinds: KindRegistry,
  place: MenuPlace,
): readonly MenuItem[] {
  const { plan, level, actions } = session;
  const refs = menuRefs(session, place);
  const items: MenuItem[] = [];
  const add = <N extends CommandName>(
    group: MenuItem['group'],
    label: string,
    name: N,
    args: CommandArgs<N>,
  ) => {
    if (actions.ask(name, args).ok)
      items.push({ group, label, run: () => void actions.run(name, args) });
  };
  for (const ref of refs.length === 1 ? refs : []) aboutOne(plan, ref, add);
  if (refs.length > 0) {
    add('thing', t('menu.turn'), 'rotate', { refs, by: 90 });
    add('thing', t('menu.mirror'), 'mirror', { refs, across: 'x' });
    const locked = refs.every((ref) => isLocked(plan, ref));
    add('thing', t(locked ? 'menu.unlock' : 'menu.lock'), 'lock', { refs, locked: !locked });
    for (const item of oneMoreOrLess(session, place)) items.push(item);
    const like = alike(plan, level, refs);
    if (like.length > refs.length)
      items.push({ group: 'thing', label: t('menu.alike'), run: () => actions.select(like) });
    const room = inSameRoom(plan, level, refs);
    if (room.length > refs.length)
      items.push({ group: 'thing', label: t('menu.same-room'), run: () => actions.select(room) });
    add('thing', t('menu.copy'), 'duplicate', { refs, by: BESIDE });
    const what =
      refs.length === 1
        ? nameOf(plan, kinds, refs[0]!)
        : t('several.title', { count: refs.length });
    add('delete', t('menu.delete', { what }), 'delete', { refs });
    return items;
  }
  const at: Point = [Math.round(place.at[0]), Math.round(place.at[1])];
  add('place', t('thing.closets'), 'place-closet', { level, at });
  for (const kind of kinds.values())
    add('place', kindName(plan, kinds, kind.id), 'place-device', { level, kind: kind.id, at });
  add('place', t('devices.spare'), 'place-spare', { level, at });
  add('place', t('thing.powers'), 'place-power', { level, at });
  add('place', t('opening.door'), 'place-opening', { level, kind: 'door', at });
  add('place', t('opening.window'), 'place-opening', { level, kind: 'window', at });
  add('place', t('rooms.fill'), 'fill-room', { level, at });
  return items;
}

/** What Shift does with a mouse: one more thing beside those that are selected, or one of several less. */
function oneMoreOrLess({ selection, actions }: MenuSession, place: MenuPlace): readonly MenuItem[] {
  const top = place.refs[0]!;
  const rest = selection.filter((ref) => refKey(ref) !== refKey(top));
  const picked = rest.length < selection.length;
  if (rest.length === 0) return [];
  const refs = picked ? rest : [...selection, top];
  const label = t(picked ? 'menu.less' : 'menu.also');
  return [{ group: 'thing', label, run: () => actions.select(refs) }];
}

type Add = <N extends CommandName>(
  group: MenuItem['group'],
  label: string,
  name: N,
  args: CommandArgs<N>,
) => void;

function aboutOne(plan: Plan, { table, id }: Ref, add: Add): void {
  if (table === 'devices' && plan.tables.devices.get(id)?.host != null)
    add('thing', t('device.own-jack'), 'give-jack', { device: id });
  if (table === 'outlets') {
    add('thing', t('jack.add'), 'add-jack', { outlet: id });
    add('thing', t('jack.add-spare'), 'add-jack', { outlet: id, spare: true });
  }
  if (table === 'backgrounds') add('thing', t('base.turn'), 'turn-background', { background: id });
}
