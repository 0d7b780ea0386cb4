import { readFile, type FileIdentity, type InputFile } from './read-file.ts';
import type { SharedOptions } from './command.ts';
import type { CommandLine } from './parse-command-line.ts';

/** One run of one command: what it may ask for, and which files it has read and so must not overwrite. */
export interface Job {
  /** FILE, DIR/ or `-`; standard input where absent. */
  readonly input: string | undefined;
  readonly shared: SharedOptions;
  readonly inputs: readonly FileIdentity[];
  /** The only door to a file. */
  readFile(path: string): Promise<InputFile>;
  /** The command as the record keeps it. */
  canonical(options: Readonly<Record<string, unknown>>): string;
}

export const startJob = ({ input, shared, canonical }: CommandLine): Job => {
  const inputs: FileIdentity[] = [];
  return {
    input,
    shared,
    inputs,
    canonical,
    readFile: async (path) => {
      const file = await readFile(path);
      inputs.push(file.identity);
      return file;
    },
  };
};
