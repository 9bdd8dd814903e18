/** The board's tools that the desk puts into somebody's hand, by their ids in the registry. */
export const TOOL = {
  select: 'select',
  setScale: 'set-scale',
  checkScale: 'check-scale',
  room: 'room',
  outline: 'outline',
  wall: 'wall',
  keepout: 'keepout',
  device: 'device',
  spare: 'spare',
  power: 'power',
  closet: 'closet',
  pathway: 'pathway',
} as const;
