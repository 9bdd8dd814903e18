import type { StraightenRequest } from '../board/index.ts';
import type { Plan } from '../plan/plan.ts';
import type { ReturnedList } from '../results/returned.ts';
import type { ClosetStudy } from '../results/types.ts';
import type { PaperName } from '../sheets/sheet.ts';

/** A page of a PDF that somebody brought, small, to choose from. */
export interface PageChoice {
  readonly page: number;
  /** Draws a small picture of the page and tells its address; null where it cannot be drawn. One at a time, in order. */
  thumbnail(): Promise<string | null>;
}

/** A study of closets, and the plan that it is of. */
export interface StudiedClosets {
  readonly plan: Plan;
  readonly study: ClosetStudy;
}

/** Asks the user which page of a PDF to take; null when they think better of it. */
export type ChoosePage = (name: string, pages: readonly PageChoice[]) => Promise<number | null>;

/**
 * What the desk asks of the app beyond the session: files, pictures and printing. Each says in a notice what went
 * wrong, and leaves the open job untouched.
 */
export interface Services {
  /** Begins a job on a blank sheet. The job that was open stays in the list of undo until another is opened. */
  newJob(): Promise<void>;
  openSample(id: 'restaurant' | 'cafe'): Promise<void>;
  /** Asks for a plan file and opens it. */
  openFile(): Promise<void>;
  /** Saves the job as a file. */
  saveFile(): Promise<void>;
  /** Takes what was dropped, pasted or chosen: a picture or a PDF becomes a background, a plan file is opened. */
  bring(file: File, choosePage: ChoosePage): Promise<void>;
  /** Asks for a picture or a PDF with the file button. */
  choosePicture(choosePage: ChoosePage): Promise<void>;
  /** Asks for a photo with the device's camera. */
  takePhoto(choosePage: ChoosePage): Promise<void>;
  /** Makes a photo upright by four corners that were set on it. */
  straighten(request: StraightenRequest): Promise<void>;
  /** Whether a background's picture is a drawing of lines, not one of dots. */
  isDrawing(asset: string): Promise<boolean>;
  /** Makes the PDF and hands it over as a download. */
  print(paper: PaperName, sheets: readonly string[]): Promise<void>;
  /** How many pages that PDF would have now; away from the screen where it can, since it lays every sheet out. */
  countPages(paper: PaperName, sheets: readonly string[]): Promise<number>;
  /** What one more closet would do to the job as it is, worked out away from the screen. Rejects when that fails. */
  studyClosets(): Promise<StudiedClosets>;
  /** Hands over the cable schedule or the material list as CSV. */
  saveCsv(what: 'schedule' | 'materials'): Promise<void>;
  /** Asks for a cable schedule that the crew filled in, and reads it; null where there is none. Nothing is recorded yet. */
  bringRecord(): Promise<ReturnedList | null>;
}
