import { align, distribute } from './align.ts';
import { allowJacks, allowKind } from './allowances.ts';
import {
  addBackground,
  checkScale,
  cropBackground,
  layBackground,
  levelBackground,
  setPrintedScale,
  setScale,
  straightenBackground,
  turnBackground,
} from './base.ts';
import type { Command } from './command.ts';
import { copyLevel } from './copy-level.ts';
import { drawKeepout, drawPathway, drawWalls, drawZone } from './draw.ts';
import { duplicate } from './duplicate.ts';
import { edit } from './edit.ts';
import { fillRoom } from './fill-room.ts';
import { addJack, giveJack, makeSpare, renumber, shareJack } from './jacks.ts';
import { addLevel } from './levels.ts';
import { lock } from './lock.ts';
import { move } from './move.ts';
import { movePoint } from './move-point.ts';
import { drawDimension, placeNote } from './notes.ts';
import { placeOpening } from './openings.ts';
import { joinPin, leaveFree, pinRuns } from './pins.ts';
import { placeCloset, placeDevice, placePower, placeSpare } from './place.ts';
import { record } from './record.ts';
import { remove } from './remove.ts';
import { repeatAlong } from './repeat-along.ts';
import { replaceKind } from './replace-kind.ts';
import { placeRiser } from './risers.ts';
import { takeWalls } from './take-walls.ts';
import { mirror, rotate, turn } from './turn.ts';

/** Every command by its name; menus, keys, findings that mend themselves and tests all call through here. */
export const commands = {
  'add-background': addBackground,
  'add-jack': addJack,
  'add-level': addLevel,
  'allow-jacks': allowJacks,
  'allow-kind': allowKind,
  align,
  'copy-level': copyLevel,
  'check-scale': checkScale,
  'crop-background': cropBackground,
  delete: remove,
  distribute,
  'draw-dimension': drawDimension,
  'draw-keepout': drawKeepout,
  'draw-pathway': drawPathway,
  'draw-walls': drawWalls,
  'draw-zone': drawZone,
  duplicate,
  edit,
  'fill-room': fillRoom,
  'give-jack': giveJack,
  'lay-background': layBackground,
  'level-background': levelBackground,
  'join-pin': joinPin,
  'leave-free': leaveFree,
  lock,
  'make-spare': makeSpare,
  mirror,
  move,
  'move-point': movePoint,
  'pin-runs': pinRuns,
  'place-closet': placeCloset,
  'place-device': placeDevice,
  'place-note': placeNote,
  'place-opening': placeOpening,
  'place-power': placePower,
  'place-riser': placeRiser,
  'place-spare': placeSpare,
  record,
  renumber,
  'repeat-along': repeatAlong,
  'replace-kind': replaceKind,
  rotate,
  'set-printed-scale': setPrintedScale,
  'set-scale': setScale,
  'share-jack': shareJack,
  'straighten-background': straightenBackground,
  'take-walls': takeWalls,
  turn,
  'turn-background': turnBackground,
} as const;

export type CommandName = keyof typeof commands;
export type CommandArgs<N extends CommandName> =
  (typeof commands)[N] extends Command<infer A> ? A : never;
