import { checkScale } from './check-scale.ts';
import { closet } from './closet.ts';
import { crop } from './crop.ts';
import { device } from './device.ts';
import { dimension } from './dimension.ts';
import { fillRoom } from './fill-room.ts';
import { keepout } from './keepout.ts';
import { level } from './level.ts';
import { measure } from './measure.ts';
import { note } from './note.ts';
import { opening } from './opening.ts';
import { outline } from './outline.ts';
import { pan } from './pan.ts';
import { pathway } from './pathway.ts';
import { pin } from './pin.ts';
import { power } from './power.ts';
import { repeat } from './repeat.ts';
import { riser } from './riser.ts';
import { room } from './room.ts';
import { select } from './select.ts';
import { setScale } from './set-scale.ts';
import { spare } from './spare.ts';
import { straighten } from './straighten.ts';
import type { Tool } from './tool.ts';
import { trace } from './trace.ts';
import { wall } from './wall.ts';

/** Every tool, in the order in which help lists them. */
const all: readonly Tool[] = [
  select,
  pan,
  measure,
  setScale,
  checkScale,
  level,
  crop,
  straighten,
  room,
  outline,
  fillRoom,
  wall,
  trace,
  opening,
  keepout,
  device,
  spare,
  power,
  closet,
  pathway,
  riser,
  pin,
  repeat,
  note,
  dimension,
];

export const tools: ReadonlyMap<string, Tool> = new Map(all.map((tool) => [tool.id, tool]));
