import { crc32, deflateSync } from 'node:zlib';
import { type Corners, homography, mapped } from '../../src/geometry/homography.ts';
import type { Point } from '../../src/geometry/point.ts';

/**
 * A plan as somebody would scan it, drawn as a grey PNG: the outer wall of a hall 113' by 60' at 10 px to the foot,
 * stretched by 1 % up the sheet as a scanner's feed does, with one cross wall.
 */
export const SCAN = {
  width: 1330,
  height: 806,
  /** Inner faces of the outer wall, px. */
  left: 100,
  right: 1230,
  top: 100,
  bottom: 706,
  /** Where the cross wall stands, px. */
  cross: 650,
} as const;

/** The bytes of the picture, which say how many dots make an inch where that is told. */
export const scannedPlan = (dots?: number): Buffer =>
  png(SCAN.width, SCAN.height, scannedRows(), dots);

/** The corners of the sheet in the photo of it, and the size of the photo, px. */
export const PHOTO: {
  readonly width: number;
  readonly height: number;
  readonly corners: Corners;
} = {
  width: 1600,
  height: 1200,
  corners: inThePhoto(1600, 1200),
};

/** Where a camera sees the corners of the sheet: turned to one side and tipped back, through a phone's lens. */
function inThePhoto(width: number, height: number): Corners {
  const [yaw, pitch, far] = [0.3, -0.45, 2000];
  const focal = 0.62 * Math.hypot(width, height);
  const at = (x: number, y: number): Point => {
    const [x1, z1] = [x * Math.cos(yaw), x * Math.sin(yaw)];
    const [y2, z2] = [
      y * Math.cos(pitch) - z1 * Math.sin(pitch),
      y * Math.sin(pitch) + z1 * Math.cos(pitch),
    ];
    return [width / 2 + (focal * x1) / (far + z2), height / 2 + (focal * y2) / (far + z2)];
  };
  const [w, h] = [SCAN.width, SCAN.height];
  return [at(-w / 2, -h / 2), at(w / 2, -h / 2), at(w / 2, h / 2), at(-w / 2, h / 2)];
}

/** The same sheet as somebody would photograph it on a table, from one side: dark table, pale sheet. */
export function photographedPlan(): Buffer {
  const { width, height, corners } = PHOTO;
  const rows = scannedRows();
  const sheet: Corners = [
    [0, 0],
    [SCAN.width, 0],
    [SCAN.width, SCAN.height],
    [0, SCAN.height],
  ];
  const map = homography(corners, sheet)!;
  const photo = Buffer.alloc((width + 1) * height, 0);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [u, v] = mapped(map, [x + 0.5, y + 0.5]).map(Math.floor) as [number, number];
      const on = u >= 0 && v >= 0 && u < SCAN.width && v < SCAN.height;
      photo[y * (width + 1) + 1 + x] = on ? rows[v * (SCAN.width + 1) + 1 + u]! : 90;
    }
  return png(width, height, photo);
}

/** A scan of 12,000 by 9,000 px, as a plotter-sized scanner makes: hatched paper. */
export function largeScan(): Buffer {
  const [width, height] = [12_000, 9000];
  const row = Buffer.alloc(width + 1, 255);
  for (let x = 1; x <= width; x += 40) row.fill(60, x, x + 3);
  row[0] = 0;
  const rows = Buffer.alloc((width + 1) * height);
  for (let y = 0; y < height; y++) row.copy(rows, y * (width + 1));
  return png(width, height, rows);
}

/** Rows of grey pixels, each after the number of its filter. */
function scannedRows(): Buffer {
  const { width, height, left, right, top, bottom, cross } = SCAN;
  const rows = Buffer.alloc((width + 1) * height, 255);
  const ink = (x0: number, y0: number, x1: number, y1: number) => {
    for (let y = y0; y < y1; y++) rows.fill(40, y * (width + 1) + 1 + x0, y * (width + 1) + 1 + x1);
  };
  // Each row begins with its filter, here none.
  for (let y = 0; y < height; y++) rows[y * (width + 1)] = 0;
  const thick = 6;
  ink(left - thick, top - thick, right + thick, top);
  ink(left - thick, bottom, right + thick, bottom + thick);
  ink(left - thick, top, left, bottom);
  ink(right, top, right + thick, bottom);
  ink(cross, top, cross + thick, bottom - 200);
  return rows;
}

/** A PNG of 8-bit grey rows, by ISO/IEC 15948. */
function png(width: number, height: number, rows: Buffer, dots?: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    ...(dots === undefined ? [] : [chunk('pHYs', perMetre(dots))]),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** Dots to the metre, across and down. */
function perMetre(dots: number): Buffer {
  const data = Buffer.alloc(9);
  data.writeUInt32BE(Math.round(dots / 0.0254), 0);
  data.writeUInt32BE(Math.round(dots / 0.0254), 4);
  data[8] = 1;
  return data;
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}
