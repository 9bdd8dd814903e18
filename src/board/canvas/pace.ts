import type { Scene } from '../scene.ts';
import type { SessionStore } from '../session.ts';

/** A scene that took less than this is made for every frame, ms. */
const QUICK = 8;

/**
 * Makes scenes no more often than the machine can: after one that took long, the last one stands for twice that time,
 * and `again` is called when it is over. What moves under the pointer is in the scene that stands, a moment late.
 */
export function paced(
  make: (session: SessionStore) => Scene,
  again: () => void,
): (session: SessionStore) => Scene {
  let last: { scene: Scene; level: string; until: number } | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  return (session) => {
    const start = performance.now();
    if (last && last.level === session.level && start < last.until) {
      clearTimeout(timer);
      timer = setTimeout(again, last.until - start);
      return last.scene;
    }
    const scene = make(session);
    const end = performance.now();
    const cost = end - start;
    last = { scene, level: session.level, until: cost > QUICK ? end + 2 * cost : end };
    return scene;
  };
}
