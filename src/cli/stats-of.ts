import { statSync, type Stats } from 'node:fs';

/** What the system knows of a path, links followed; undefined where there is nothing or nothing can be known. */
export const statsOf = (path: string): Stats | undefined => {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
};

export const isFolder = (path: string): boolean => statsOf(path)?.isDirectory() === true;
