import { renderMessage } from '../../base/message.ts';
import { formatLength } from '../../base/units.ts';
import { CEILING_KEY } from '../../board/keys.ts';
import {
  CEILING_STYLES,
  CLEARANCE_STYLE,
  FACE_STYLE,
  planeWallStyle,
} from '../../drawing/ceiling-marks.ts';
import { ceilingWords } from '../../drawing/ceiling-words.ts';
import type { Mark, Style } from '../../drawing/display.ts';
import { hatchLines } from '../../drawing/hatch.ts';
import { pathwayLines } from '../../drawing/pathway-lines.ts';
import { KEEPOUT_STYLE } from '../../drawing/room-marks.ts';
import type { Point } from '../../geometry/point.ts';
import type { CeilingPlane, PlaneWall } from '../../results/ceiling-plane.ts';
import { t } from '../../text/index.ts';
import { useActions, useSession, useUnits } from '../context.tsx';
import { MarksPicture } from '../controls/marks.tsx';
import { Section } from '../controls/parts.tsx';

/** Switches the ceiling plane on and off, and says what its patterns mean. */
export function CeilingView() {
  const actions = useActions();
  const shown = useSession((s) => s.shown);
  const plane = useSession((s) => s.planes?.find(({ level }) => level === s.level) ?? null);
  return (
    <Section title={t('plane.title')}>
      <button
        type="button"
        className="tool-row"
        aria-pressed={shown.ceiling}
        aria-keyshortcuts={CEILING_KEY}
        onClick={() => actions.set({ shown: { ...shown, ceiling: !shown.ceiling } })}
      >
        <span className="tool-picture">
          <MarksPicture marks={sample(CEILING_STYLES.hard)} />
        </span>
        <span className="tool-words">
          <span className="tool-name">{t('plane.show')}</span>
          <span className="tool-keys">
            <span className="key">{CEILING_KEY}</span>
          </span>
          <span className="tool-hint">{t('plane.hint')}</span>
        </span>
      </button>
      {shown.ceiling ? plane ? <Legend plane={plane} /> : <p>{t('plane.waiting')}</p> : null}
    </Section>
  );
}

const WALL: PlaneWall = {
  walls: [],
  outline: [],
  passage: 'priced',
  reason: 'framed',
  work: 'sleeve',
  firestop: false,
  price: 0,
};

/** What there is on the level, each with its pattern; the prices stand on the drawing. */
function Legend({ plane }: { plane: CeilingPlane }) {
  const units = useUnits();
  const { ceilings, walls, keepouts, pathways, faces, bend } = plane;
  const kinds = new Set(ceilings.filter(({ zone }) => zone !== null).map(({ kind }) => kind));
  const own = ceilings[0];
  const some = (test: (wall: PlaneWall) => boolean) => walls.some(test);
  const rows: readonly (readonly [boolean, readonly Mark[], string])[] = [
    [kinds.has('tile'), sample(CEILING_STYLES.tile), t('plane.tile')],
    [kinds.has('open'), sample(CEILING_STYLES.open), t('plane.open')],
    [kinds.has('hard'), sample(CEILING_STYLES.hard), t('plane.hard')],
    [faces.length > 0, [{ op: 'line', points: MIDDLE, style: FACE_STYLE }], t('plane.face')],
    [
      some((wall) => wall.passage === 'free'),
      sample(planeWallStyle({ ...WALL, passage: 'free' })),
      t('plane.free'),
    ],
    [
      some((wall) => wall.passage === 'priced' && !wall.firestop),
      sample(planeWallStyle(WALL)),
      t('plane.priced'),
    ],
    [
      some((wall) => wall.passage === 'priced' && wall.firestop),
      sample(planeWallStyle({ ...WALL, firestop: true })),
      t('plane.firestop'),
    ],
    [
      some((wall) => wall.passage === 'barred'),
      sample(planeWallStyle({ ...WALL, passage: 'barred' })),
      t('plane.barred'),
    ],
    [
      keepouts.length > 0,
      [...sample(CLEARANCE_STYLE), ...sample(KEEPOUT_STYLE, 2.6, 1.3)],
      t('plane.keepout'),
    ],
    [pathways.length > 0, pathwayLines('tray', MIDDLE, 1), t('plane.pathway')],
  ];
  return (
    <>
      <ul className="plane-legend" aria-label={t('plane.legend')}>
        {rows
          .filter(([there]) => there)
          .map(([, marks, words]) => (
            <li key={words}>
              <MarksPicture marks={marks} scale={3.6} />
              <span>{words}</span>
            </li>
          ))}
      </ul>
      {own ? (
        <p className="note">
          {t('plane.elsewhere')}:{' '}
          {ceilingWords(own)
            .map((m) => renderMessage(m, units))
            .join(', ')}
          . {t('plane.bend', { price: formatLength(bend, units) })}
        </p>
      ) : null}
    </>
  );
}

const MIDDLE: readonly Point[] = [
  [-3.8, 0],
  [3.8, 0],
];

/** A box in a style, its hatch as lines. */
function sample({ hatch, ...style }: Style, x = 3.8, y = 2.3): Mark[] {
  const box: Mark = {
    op: 'line',
    closed: true,
    points: [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ],
    style,
  };
  if (!hatch || !style.stroke) return [box];
  const { stroke } = style;
  const lines = hatchLines(hatch, { x0: -x, y0: -y, x1: x, y1: y }).map(([a, b]): Mark => {
    if (hatch === 'dots') return { op: 'circle', at: a, radius: 0.2, style: { fill: stroke } };
    return { op: 'line', points: [a, b], style: { stroke, width: 0.2 } };
  });
  return [box, ...lines];
}
