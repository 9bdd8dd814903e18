import type { Point } from '../geometry/point.ts';
import { job } from '../plan/plan.ts';
import type { Hand } from './hand.ts';
import type { SessionApi } from './session.ts';
import type { Sight } from './sight.ts';
import { placeBy } from './snap-targets.ts';
import type { Stand } from './stand.ts';
import { beginsLength, goesOn, readTyped, whyNoLength } from './typing.ts';

/** A length as it is typed while drawing. */
export interface TypedLength {
  /** What was typed so far. */
  readonly text: string;
  /** Whether it would mean something in the gesture that runs. */
  measures(): boolean;
  /** Whether it would begin a drawing. */
  begins(): boolean;
  /** A key; true when it belongs to a length. */
  type(key: string): boolean;
  /** All of it at once. */
  put(text: string): void;
  back(): void;
  forget(): void;
  /** Draws so far, in the direction of the pointer or of an arrow; an arrow before anything is drawn moves the stand. */
  enter(by?: Point): void;
}

/** A digit that, before anything is typed, shows all of the plan. */
const FIT_KEY = '0';

export function createTypedLength(
  session: SessionApi,
  sight: Sight,
  stand: Stand,
  hand: Hand,
  changed: () => void,
): TypedLength {
  let text = '';

  const put = (next: string): void => {
    text = next;
    changed();
  };
  const measures = (): boolean =>
    hand.tool.lengths !== false && hand.tool.anchor(hand.state) !== null;
  const begins = (): boolean => hand.tool.typedFirst === true && hand.state === hand.tool.start;

  const frameAngle = (): number => {
    const { history, level } = session.getState();
    return history.plan.tables.levels.get(level)?.frameAngle ?? 0;
  };

  const standAt = (at: Point): void => {
    stand.put(at);
    changed();
  };

  /** Begins a drawing at the stand, as a click there would. */
  const beginAtStand = (): void => {
    const at = stand.orFirst();
    standAt(at);
    hand.step('press', at, { exact: true });
    hand.step('release', at, { exact: true });
  };

  return {
    get text() {
      return text;
    },
    measures,
    begins,
    put,
    back: () => put(text.slice(0, -1)),
    forget() {
      text = '';
    },
    type(key) {
      if (text === '' ? !beginsLength(key) : !goesOn(key)) return false;
      if (!measures() && !(begins() && (text !== '' || key !== FIT_KEY))) return false;
      text += key;
      if (begins()) stand.put(stand.orFirst());
      changed();
      return true;
    },
    enter(by) {
      const { history, actions } = session.getState();
      const { units } = job(history.plan);
      const read = readTyped(text, units);
      if (!read) {
        actions.say(whyNoLength(text, units), 'warning');
        return;
      }
      put('');
      const { angle, ...length } = read;
      if (begins()) {
        if (by && length.second === undefined && angle === undefined) {
          standAt(placeBy(sight.targets(), stand.orFirst(), by, length.mm));
          return;
        }
        beginAtStand();
      }
      // Typed from the building lines, counting up as seen; y runs down.
      const turned =
        angle !== undefined
          ? { angle: frameAngle() - angle }
          : by
            ? { angle: frameAngle() + (Math.atan2(by[1], by[0]) * 180) / Math.PI }
            : {};
      hand.send({ type: 'length', ...length, ...turned });
      hand.again();
    },
  };
}
