import { readFileSync } from 'node:fs';

/** An invented site as somebody would describe it: feet and inches, x east, y south. */
export interface Site {
  readonly name: string;
  readonly address: string;
  readonly deck_ft: number;
  readonly exterior: 'masonry' | 'framed';
  readonly rooms: readonly Room[];
  /** Groups of rooms that no wall divides. */
  readonly open: readonly (readonly string[])[];
  /** Rooms with insulated panels round them. */
  readonly insulated: readonly string[];
  readonly walls: readonly WallNote[];
  readonly keepouts: readonly (Box & { readonly name: string; readonly clearance_in: number })[];
  readonly pathways: readonly Way[];
  readonly closets: readonly (At & {
    readonly name: string;
    readonly h_ft: number;
    readonly ports: number;
  })[];
  readonly devices: readonly SiteDevice[];
  readonly spares: readonly At[];
}

export interface At {
  readonly x: number;
  readonly y: number;
}

export interface Box extends At {
  readonly w: number;
  readonly h: number;
}

export interface Room extends Box {
  readonly id: string;
  readonly name: string;
  readonly area: string;
  readonly ceiling: string;
  readonly ceiling_ft: number;
  readonly outdoor?: boolean;
}

/** A wall that is fire-rated, or that stands where two rooms are otherwise open to each other. */
export interface WallNote {
  readonly pts: readonly [readonly [number, number], readonly [number, number]];
  readonly rated?: boolean;
  readonly extra?: boolean;
  readonly column?: boolean;
}

export interface Way {
  readonly id: string;
  readonly name: string;
  readonly kind: 'hook-line' | 'tray' | 'conduit' | 'raceway' | 'sleeve' | 'under-slab';
  readonly pts: readonly (readonly [number, number])[];
  readonly elevation_ft: number | null;
  readonly size: string;
}

export interface SiteDevice extends At {
  readonly tag: string;
  readonly kind: string;
  readonly name: string;
  readonly h_in: number;
  readonly cables: number;
  readonly power: string;
  /** Where its outlet hangs, when that is not the nearest wall. */
  readonly outlet?: At & {
    readonly mount: 'wall' | 'ceiling' | 'pole' | 'casework' | 'floor';
    readonly h_in: number;
  };
  /** A receptacle that the electrician has not been asked for yet. */
  readonly unpowered?: boolean;
}

export const SITES = ['restaurant', 'cafe'] as const;

const text = (name: string): string =>
  readFileSync(new URL(`../fixtures/sites/${name}.json`, import.meta.url), 'utf8');

export const readSite = (name: (typeof SITES)[number]): Site => JSON.parse(text(name)) as Site;
