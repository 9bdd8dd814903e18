import { allowJacks, allowKind } from './allowances.ts';
import { addBackground, checkScale, setScale, turnBackground } from './base.ts';
import { edit, move, remove, turn } from './change.ts';
import type { Command } from './command.ts';
import { drawKeepout, drawPathway, drawWalls, drawZone } from './draw.ts';
import { duplicate } from './duplicate.ts';
import { addJack, giveJack, makeSpare, renumber, shareJack } from './jacks.ts';
import { addLevel, copyLevel } from './levels.ts';
import { movePoint } from './move-point.ts';
import { joinPin, leaveFree, pinRuns } from './pins.ts';
import { placeCloset, placeDevice, placePower, placeSpare } from './place.ts';
import { placeRiser } from './risers.ts';

/** Every command by its name; menus, keys, findings that mend themselves and tests all call through here. */
export const commands = {
  'add-background': addBackground,
  'add-jack': addJack,
  'add-level': addLevel,
  'allow-jacks': allowJacks,
  'allow-kind': allowKind,
  'copy-level': copyLevel,
  'check-scale': checkScale,
  delete: remove,
  'draw-keepout': drawKeepout,
  'draw-pathway': drawPathway,
  'draw-walls': drawWalls,
  'draw-zone': drawZone,
  duplicate,
  edit,
  'give-jack': giveJack,
  'join-pin': joinPin,
  'leave-free': leaveFree,
  'make-spare': makeSpare,
  move,
  'move-point': movePoint,
  'pin-runs': pinRuns,
  'place-closet': placeCloset,
  'place-device': placeDevice,
  'place-power': placePower,
  'place-riser': placeRiser,
  'place-spare': placeSpare,
  renumber,
  'set-scale': setScale,
  'share-jack': shareJack,
  turn,
  'turn-background': turnBackground,
} as const;

export type CommandName = keyof typeof commands;
export type CommandArgs<N extends CommandName> =
  (typeof commands)[N] extends Command<infer A> ? A : never;
