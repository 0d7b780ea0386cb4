import { StaywrightError } from '../errors.ts';
import type { Job } from './job.ts';

/** The document in a JSON file, unchecked. */
export const readJson = async (path: string, job: Job): Promise<unknown> => {
  const { name, bytes } = await job.readFile(path);
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as unknown;
  } catch (error) {
    const said = error instanceof Error ? error.message : String(error);
    throw new StaywrightError('input', `is not JSON: ${said}`, { where: name, cause: error });
  }
};
