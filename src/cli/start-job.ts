import type { Job } from './job.ts';
import type { CommandLine } from './parse-command-line.ts';
import { findPicture, readFile, type FileIdentity } from './read-file.ts';

/** The job of a parsed command line; it remembers each file that it reads. */
export const startJob = ({ other, input, more, shared, canonical }: CommandLine): Job => {
  const inputs: FileIdentity[] = [];
  return {
    ...(other === undefined ? {} : { other }),
    input,
    more,
    shared,
    inputs,
    canonical,
    readFile: async (path) => {
      const file = await readFile(path);
      inputs.push(file.identity);
      return file;
    },
    findPicture: async (path) => {
      const picture = await findPicture(path);
      inputs.push(picture.identity);
      return picture;
    },
  };
};
