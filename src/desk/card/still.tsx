import { type ReactNode, useLayoutEffect, useRef } from 'react';
import { useSession } from '../context.tsx';

/**
 * Keeps the height of what a survey writes anew while something is dragged, so that nothing below it jumps with every
 * answer: it becomes no lower, and where it is `exact` no higher either, but can be scrolled.
 */
export function Still({ exact = false, children }: { exact?: boolean; children: ReactNode }) {
  const box = useRef<HTMLDivElement>(null);
  const held = useRef<number | null>(null);
  const dragging = useSession((s) => s.preview !== null);
  useLayoutEffect(() => {
    const { style } = box.current!;
    held.current = dragging ? (held.current ?? box.current!.getBoundingClientRect().height) : null;
    const height = held.current === null ? '' : `${held.current}px`;
    if (exact) style.height = height;
    else style.minHeight = height;
  }, [dragging, exact]);
  return (
    <div ref={box} className={exact ? 'still still-exact' : 'still'} data-held={dragging}>
      {children}
    </div>
  );
}
