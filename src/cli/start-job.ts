import type { Job } from './job.ts';
import type { CommandLine } from './parse-command-line.ts';
import { findPicture, readFile, readStandardInput, type FileIdentity, type InputFile } from './read-file.ts';

/** The job of a parsed command line; it remembers each file that it reads. */
export const startJob = ({ other, input, more, shared, canonical }: CommandLine, find: Job['find']): Job => {
  const inputs: FileIdentity[] = [];
  const noted = <File extends { readonly identity: FileIdentity }>(file: File): File => {
    inputs.push(file.identity);
    return file;
  };
  let piped: Promise<InputFile> | undefined;
  const standardInput = (): Promise<InputFile> => (piped ??= readStandardInput());
  return {
    ...(other === undefined ? {} : { other }),
    input,
    more,
    shared,
    inputs,
    find,
    canonical,
    readFile: async (path) => noted(path === '-' ? await standardInput() : await readFile(path)),
    findPicture: async (path) => {
      if (path !== '-') return noted(await findPicture(path));
      const { name, bytes, identity } = noted(await standardInput());
      return { name, source: bytes, beginning: bytes, identity };
    },
  };
};
