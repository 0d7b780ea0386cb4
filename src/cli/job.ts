import type { Side } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';
import type { Command } from './command.ts';
import type { FileIdentity, InputFile, PictureFile } from './read-file.ts';

/** One run of one command: what it may ask for, and which files it has read and so must not overwrite. */
export interface Job {
  /** FILE, DIR/ or `-`; standard input where absent. */
  readonly input: string | undefined;
  /** Further scans, for a command that takes many. */
  readonly more: readonly string[];
  /** The other sheet, for a command that takes one: OTHER.svg, DIR/ or `-`. */
  readonly other?: string;
  readonly shared: SharedOptions;
  readonly inputs: readonly FileIdentity[];
  /** The door to a file. */
  readFile(path: string): Promise<InputFile>;
  /** The door to a picture, which is decoded straight from its file. */
  findPicture(path: string): Promise<PictureFile>;
  /** Any command of the tool, for one that runs others; refuses a name that none has. */
  find(name: string): Promise<Command>;
  /** The command as the record keeps it. */
  canonical(options: Readonly<Record<string, unknown>>): string;
}

/** The options that commands share; which of them a command has follows from its kind. */
export interface SharedOptions {
  readonly output?: string;
  readonly pdf?: string;
  readonly overlay?: string;
  readonly paper?: string;
  readonly margin?: string;
  readonly overlap?: string;
  readonly through?: boolean;
  readonly dryRun?: boolean;
  readonly json?: boolean;
  readonly units?: Units;
  readonly quiet?: boolean;
  readonly force?: boolean;
  readonly scale?: string;
  readonly testSquare?: string;
  readonly within?: string;
  readonly side?: Side;
}
