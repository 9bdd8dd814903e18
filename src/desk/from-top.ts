import { type RefObject, useLayoutEffect, useRef } from 'react';

/** Scrolls the shelf to its top when what it holds changes; the ref goes to the title of what it holds. */
export function useFromTop(held: string): RefObject<HTMLHeadingElement | null> {
  const title = useRef<HTMLHeadingElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is what the shelf holds that changes
  useLayoutEffect(() => {
    title.current?.closest('.shelf')?.scrollTo({ top: 0 });
  }, [held]);
  return title;
}
