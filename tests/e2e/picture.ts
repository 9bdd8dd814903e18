import { crc32, deflateSync } from 'node:zlib';

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

/** The bytes of the picture. */
export function scannedPlan(): Buffer {
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
  return png(width, height, rows);
}

/** A PNG of 8-bit grey rows, by ISO/IEC 15948. */
function png(width: number, height: number, rows: Buffer): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}
