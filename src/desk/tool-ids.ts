import type { Leg } from '../board/session.ts';

/** The board's tools that the desk puts into somebody's hand, by their ids in the registry. */
export const TOOL = {
  select: 'select',
  setScale: 'set-scale',
  checkScale: 'check-scale',
  level: 'level',
  crop: 'crop',
  straighten: 'straighten',
  room: 'room',
  outline: 'outline',
  fillRoom: 'fill-room',
  wall: 'wall',
  trace: 'trace',
  opening: 'opening',
  keepout: 'keepout',
  device: 'device',
  spare: 'spare',
  power: 'power',
  closet: 'closet',
  pathway: 'pathway',
  riser: 'riser',
  pin: 'pin',
  repeat: 'repeat',
  note: 'note',
  dimension: 'dimension',
} as const;

/** The tools that a leg offers; those of no leg, as select and measure, are at hand on all. */
const OFFERED: Partial<Record<Leg, readonly string[]>> = {
  base: [TOOL.setScale, TOOL.checkScale, TOOL.level, TOOL.crop, TOOL.straighten],
  rooms: [
    ...[TOOL.room, TOOL.outline, TOOL.fillRoom, TOOL.wall, TOOL.trace, TOOL.opening],
    ...[TOOL.keepout, TOOL.note, TOOL.dimension],
  ],
  devices: [TOOL.device, TOOL.spare, TOOL.power, TOOL.closet, TOOL.repeat],
  runs: [TOOL.pathway, TOOL.riser, TOOL.pin],
};

/** Whether a tool belongs to other legs than this one, so that it is put back when this one is opened. */
export function strange(tool: string, leg: Leg): boolean {
  if (OFFERED[leg]?.includes(tool)) return false;
  return Object.values(OFFERED).some((tools) => tools.includes(tool));
}
