import { mkdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { StaywrightError } from '../errors.ts';
import type { PlannedFile } from './plan-files.ts';
import { systemReason } from './system-reason.ts';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Writes all files whole or none: each first to a temporary neighbour, then all renamed.
 * A signal meanwhile takes the temporary files away and then ends the process as it would have without us.
 */
export const writeFiles = async (files: readonly PlannedFile[], newFolder?: string): Promise<void> => {
  const made: string[] = [];
  const takeAway = (): void => {
    for (const path of made) rmSync(path, { force: true });
    if (newFolder !== undefined) removeIfEmpty(newFolder);
  };
  const interrupted = (signal: NodeJS.Signals): void => {
    takeAway();
    for (const name of SIGNALS) process.off(name, interrupted);
    process.kill(process.pid, signal);
  };
  for (const name of SIGNALS) process.on(name, interrupted);
  let at = files[0]?.path ?? newFolder ?? '';
  try {
    if (newFolder !== undefined) mkdirSync(newFolder);
    for (const { path, target, bytes } of files) {
      at = path;
      const temporary = join(dirname(target), `.${basename(target)}.${process.pid}.tmp`);
      made.push(temporary);
      await writeFile(temporary, bytes, { flag: 'wx' });
    }
    files.forEach(({ path, target }, index) => {
      at = path;
      renameSync(made[index]!, target);
    });
  } catch (error) {
    takeAway();
    throw new StaywrightError('input', `cannot be written: ${systemReason(error, 'the system refuses')}`, {
      where: at,
      cause: error,
    });
  } finally {
    for (const name of SIGNALS) process.off(name, interrupted);
  }
};

const removeIfEmpty = (folder: string): void => {
  try {
    rmdirSync(folder);
  } catch {
    // Something is in it, or it was never made: either way it is not ours to remove.
  }
};
