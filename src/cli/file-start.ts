import { closeSync, openSync, readSync } from 'node:fs';
import { statsOf } from './stats-of.ts';

/** The marks by which the tool knows its own files stand near their beginnings. */
const ENOUGH = 65_536;

/** The beginning of a file, a character a byte. */
export const fileStart = (path: string): string => {
  const start = Buffer.alloc(ENOUGH);
  const file = openSync(path, 'r');
  try {
    return start.subarray(0, readSync(file, start, 0, start.length, 0)).toString('latin1');
  } finally {
    closeSync(file);
  }
};

/** Whether text begins as a sheet does. */
export const startsSheet = (start: string): boolean => /<svg\b[^>]*\sdata-sheet=/.test(start);

/** Whether a file is a picture that the tool drew, which holds no panels to read; not so of what cannot be read. */
export const isDrawnPicture = (path: string): boolean => {
  if (statsOf(path)?.isFile() !== true) return false;
  try {
    return /<svg\b[^>]*\sdata-picture=/.test(fileStart(path));
  } catch {
    return false;
  }
};
