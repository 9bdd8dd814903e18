import { useMemo } from 'react';
import type { Id } from '../../base/ids.ts';
import { usePointed, useSession } from '../context.tsx';

/** The jacks of what is selected on the board, and of what the pointer rests on. */
export function useMarked(): { selected: ReadonlySet<Id>; hovered: Id | null } {
  const selection = useSession((s) => s.selection);
  const pointed = usePointed();
  const hovered = pointed?.table === 'jacks' ? pointed.id : null;
  const jacks = useSession((s) => s.history.plan.tables.jacks);
  return useMemo(() => {
    const selected = new Set<Id>();
    for (const jack of jacks.values())
      for (const ref of selection)
        if (
          (ref.table === 'jacks' && ref.id === jack.id) ||
          (ref.table === 'outlets' && ref.id === jack.outlet) ||
          (ref.table === 'devices' && ref.id === jack.device)
        )
          selected.add(jack.id);
    return { selected, hovered };
  }, [selection, hovered, jacks]);
}
