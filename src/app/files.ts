import { type Message, msg } from '../base/message.ts';
import { trouble } from './pictures/trouble.ts';

/** Bytes beyond which a file is refused unread. */
export const MOST_BYTES = 200_000_000;

const inMegabytes = (bytes: number): string => `${Math.round(bytes / 1e6)} MB`;

/** Refuses a file that is too large, before any of it is read. */
export function checkSize({ name, size }: Pick<File, 'name' | 'size'>): void {
  if (size > MOST_BYTES)
    trouble(
      '“{name}” has {size}; files of up to {most} can be opened. Save the page that you need as a smaller PDF or picture.',
      { name, size: inMegabytes(size), most: inMegabytes(MOST_BYTES) },
    );
}

/** Whether an error only says that somebody shut a file dialog. */
const shut = (error: unknown): boolean => error instanceof Error && error.name === 'AbortError';

/** Asks for a file; null when they think better of it. No filter: what a file is, its content says. */
export async function pickFile(): Promise<File | null> {
  const { fileOpen } = await import('browser-fs-access');
  return fileOpen({ id: 'plans' }).catch((error) => (shut(error) ? null : Promise.reject(error)));
}

/** Asks for a photo: where there is a camera, with that at once; null when they think better of it. */
export function takePhoto(): Promise<File | null> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = 'image/*';
  // As an attribute: browsers without a camera do not know the property.
  input.setAttribute('capture', 'environment');
  return new Promise((done) => {
    input.addEventListener('change', () => done(input.files?.[0] ?? null));
    input.addEventListener('cancel', () => done(null));
    input.click();
  });
}

/** Asks where to save a file, or downloads it; false when they think better of it. */
export async function saveAs(blob: Blob, fileName: string): Promise<boolean> {
  const { fileSave } = await import('browser-fs-access');
  const dot = fileName.lastIndexOf('.');
  try {
    await fileSave(blob, { fileName, extensions: [fileName.slice(dot)], id: 'plans' });
    return true;
  } catch (error) {
    if (shut(error)) return false;
    throw error;
  }
}

/** Hands a file over as a download, without asking. */
export function download(blob: Blob, fileName: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = fileName;
  link.click();
  // The browser reads the address after the click has ended.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

const NO_ROOM = msg(
  'There is no room left on this device for that. Free some room, then try again. The open job is untouched.',
);

/** The words for an error that nobody foresaw, or for a full disk. */
export const unforeseen = (error: unknown): Message =>
  error instanceof Error && error.name === 'QuotaExceededError'
    ? NO_ROOM
    : msg('That did not work: {reason}. The open job is untouched.', {
        reason: error instanceof Error ? error.message : String(error),
      });
