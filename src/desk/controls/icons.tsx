import type { ReactNode } from 'react';

const icon = (body: ReactNode, size = 18, box = 18) => (
  <svg
    aria-hidden="true"
    className="icon"
    width={size}
    height={size}
    viewBox={`0 0 ${box} ${box}`}
    fill="none"
    stroke="currentColor"
    strokeWidth="1.6"
    strokeLinecap="round"
    strokeLinejoin="round"
  >
    {body}
  </svg>
);

/** Small pictures of our own, in the line weight of the type. */
export const ICONS = {
  undo: icon(<path d="M6.5 4 3 7.5 6.5 11M3.5 7.5H11a4 4 0 0 1 0 8H8" />),
  redo: icon(<path d="M11.5 4 15 7.5 11.5 11M14.5 7.5H7a4 4 0 0 0 0 8h3" />),
  close: icon(<path d="m4.5 4.5 9 9m0-9-9 9" />),
  list: icon(<path d="M3 4.5h2m3 0h7M3 9h2m3 0h7M3 13.5h2m3 0h7" />),
  help: icon(
    <>
      <path d="M6.3 6.6A2.8 2.8 0 0 1 9 4.2c1.6 0 2.8 1 2.8 2.5 0 2-2.8 2.2-2.8 4.3" />
      <path d="M9 13.9v.1" strokeWidth="2" />
    </>,
  ),
  day: icon(
    <>
      <circle cx="9" cy="9" r="3" />
      <path d="M9 2v1.5M9 14.5V16M2 9h1.5M14.5 9H16M4 4l1.1 1.1M12.9 12.9 14 14M4 14l1.1-1.1M12.9 5.1 14 4" />
    </>,
  ),
  night: icon(<path d="M14.5 11A6 6 0 0 1 7 3.5 6 6 0 1 0 14.5 11Z" />),
  more: icon(<path d="m5 7 4 4 4-4" />),
  snap: icon(<path d="M4 3v6a5 5 0 0 0 10 0V3M4 6h3m4 0h3M7 3v6a2 2 0 0 0 4 0V3" />),
  snapUnder: icon(
    <path d="M2.500 14.500h13M2.500 11.500h13M6 2.500v3a3 3 0 0 0 6 0v-3M6 4.500h2m2 0h2" />,
  ),
  shelf: icon(<path d="M3 3.5h12v11H3zM7.5 3.5v11" />),
  card: icon(<path d="M3 3.5h12v11H3zM5.5 7h7M5.5 10h5" />),
  bars: icon(<path d="M3 15h12M5 12.5V4m4 8.5V7m4 5.5v-2" />),
  trash: icon(<path d="M3.5 5h11M7 5V3.5h4V5M5 5l.7 9.5h6.6L13 5M7.8 8v4M10.2 8v4" />),
  eye: icon(
    <>
      <path d="M2 9s2.6-4.5 7-4.5S16 9 16 9s-2.6 4.5-7 4.5S2 9 2 9Z" />
      <circle cx="9" cy="9" r="1.8" />
    </>,
  ),
};

const drawing = (body: ReactNode) => (
  <svg
    aria-hidden="true"
    className="marks"
    width="36"
    height="24"
    viewBox="0 0 36 24"
    fill="none"
    stroke="currentColor"
    strokeWidth="1.5"
    strokeLinejoin="round"
    strokeLinecap="round"
  >
    {body}
  </svg>
);

const cable = { stroke: 'var(--ink-cable)' };

/** Pictures of what a tool draws. */
export const TOOL_PICTURES = {
  room: drawing(
    <>
      <path d="M6 4h24v16H6z" fill="var(--ink-tint-3)" />
      <path d="M6 4h.1M30 20h.1" strokeWidth="5" />
    </>,
  ),
  outline: drawing(
    <>
      <path d="M6 4h24v9H19v7H6z" fill="var(--ink-tint-3)" />
      <path d="M6 4h.1M30 4h.1M30 13h.1M19 13h.1M19 20h.1M6 20h.1" strokeWidth="4" />
    </>,
  ),
  wall: drawing(<path d="M4 17V9h28v8" strokeWidth="3.5" strokeLinecap="butt" />),
  trace: drawing(
    <>
      <path d="M4 15V5h28v10" strokeWidth="1" strokeDasharray="3 2" />
      <path d="M9 15v-5h18v5" strokeWidth="1" strokeDasharray="3 2" />
      <path d="M6.500 19V7.500H18" strokeWidth="3.5" strokeLinecap="butt" />
    </>,
  ),
  'fill-room': drawing(
    <>
      <path d="M5 4h26v16H5z" strokeWidth="3" fill="var(--ink-tint-3)" />
      <path d="M18 8v8M14 12h8" />
    </>,
  ),
  opening: drawing(
    <>
      <path d="M3 19h7M24 19h9" strokeWidth="3.5" strokeLinecap="butt" />
      <path d="M10 19V5" />
      <path d="M10 5a14 14 0 0 1 14 14" strokeWidth="0.9" />
    </>,
  ),
  note: drawing(
    <>
      <path d="M13 4h19v11H13z" />
      <path d="M17 8h11M17 11.5h7" strokeWidth="1" />
      <path d="m13 12-8 7" />
      <path d="M5 19h.1" strokeWidth="4" />
    </>,
  ),
  dimension: drawing(
    <>
      <path d="M5 9h26M5 5v14M31 5v14" strokeWidth="1" />
      <path d="m3.5 11 3-4M29.5 11l3-4" strokeWidth="2" />
    </>,
  ),
  keepout: drawing(
    <>
      <path d="M6 4h24v16H6z" strokeDasharray="3 2.5" stroke="var(--ink-warn)" />
      <path
        d="m8 19 14-14M14 19 28 5M20 19l9-9M8 13l8-8"
        stroke="var(--ink-warn)"
        strokeWidth="0.9"
      />
    </>,
  ),
  scale: drawing(
    <>
      <path d="M5 12h26M5 7v10M31 7v10" />
      <path d="m9 9-4 3 4 3M27 9l4 3-4 3" />
    </>,
  ),
  check: drawing(
    <>
      <path d="M5 7h18M5 3v8M23 3v8" />
      <path d="m22 17 3 3.5L31 13" stroke="var(--ink-good)" strokeWidth="2" />
    </>,
  ),
  straighten: drawing(
    <>
      <path d="M11 5h14l6 14H5z" />
      <path d="M11 5h.1M25 5h.1M31 19h.1M5 19h.1" strokeWidth="5" />
    </>,
  ),
  level: drawing(
    <>
      <path d="M5 17 31 8" />
      <path d="M5 17h26" strokeDasharray="3 2.5" />
    </>,
  ),
  crop: drawing(<path d="M10 2v16h22M4 6h22v16" />),
  'hook-line': drawing(
    <>
      <path d="M3 9h30" {...cable} strokeWidth="2" />
      <path d="M7 4v7a2.5 2.5 0 0 0 5 0M16 4v7a2.5 2.5 0 0 0 5 0M25 4v7a2.5 2.5 0 0 0 5 0" />
    </>,
  ),
  tray: drawing(
    <>
      <path d="M3 7h30M3 17h30" />
      <path d="M7 7v10M12.5 7v10M18 7v10M23.5 7v10M29 7v10" strokeWidth="1" />
    </>,
  ),
  conduit: drawing(
    <>
      <rect x="3" y="8" width="30" height="8" rx="4" />
      <path d="M7 12h22" {...cable} strokeWidth="2" />
    </>,
  ),
  raceway: drawing(
    <>
      <path d="M3 5h30" strokeWidth="3.5" strokeLinecap="butt" />
      <path d="M5 8.5h26v5H5z" />
      <path d="M7 11h22" {...cable} strokeWidth="2" />
    </>,
  ),
  sleeve: drawing(
    <>
      <path d="M18 2v6M18 16v6" strokeWidth="4.5" strokeLinecap="butt" />
      <path d="M11 8h14v8H11z" />
      <path d="M3 12h30" {...cable} strokeWidth="2" />
    </>,
  ),
  'under-slab': drawing(
    <>
      <path d="M3 5h30" strokeWidth="2.5" />
      <path d="M8 5v9a3 3 0 0 0 3 3h14a3 3 0 0 0 3-3V5" strokeDasharray="3 2.5" {...cable} />
    </>,
  ),
};
