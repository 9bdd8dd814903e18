import { msg } from '../../base/message.ts';
import { rectangleTool } from '../gestures/rectangle.ts';
import type { ToolOption } from './tool.ts';

/** Rooms with walls round them, or only the ceiling over a place. */
export const ROOM_OPTIONS: readonly ToolOption[] = [
  { id: '', label: msg('With walls') },
  { id: 'no-walls', label: msg('Without walls') },
];

/** What is said of the area of a new room. */
export const inArea = (area: string | null) => (area === null ? {} : { look: { area } });

export const room = rectangleTool({
  id: 'room',
  label: msg('Room, four corners'),
  key: 'b',
  options: ROOM_OPTIONS,
  snaps: ['grid', 'end', 'middle', 'centre', 'edge', 'aligned', 'under-end', 'under-line'],
  hint: msg('Drag from corner to corner, or click the first corner.'),
  call: (outline, { level, option, area }, typed) => ({
    name: 'draw-zone',
    args: { level, outline, walls: option !== 'no-walls', typed, ...inArea(area) },
  }),
});
