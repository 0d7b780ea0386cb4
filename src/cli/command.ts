import type { Command as Commander, OptionValues } from '@commander-js/extra-typings';
import type { Scene } from '../ink/scene.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Sheet } from '../svg/sheet.ts';
import type { Job } from './job.ts';
import type { WantedFile } from './plan-files.ts';

/**
 * What a command gives out, which decides its shared options: `sheet` writes one, `drawing` a plain drawing, `measure` writes a report
 * and, when asked, the sheet with the measures drawn on it, `look` writes a report alone, `overlay` a report and, when asked, a picture,
 * `pdf` writes pages, `picture` a picture.
 */
type CommandKind = 'sheet' | 'drawing' | 'measure' | 'look' | 'overlay' | 'pdf' | 'picture';

/** A command's words, made only when they are wanted: `text` for people, `json` as one document with keys that name their units. */
export interface Report {
  text(): string;
  /** The line that matters most, without its newline: it stands after the warnings. */
  last?(): string;
  json(): Readonly<Record<string, unknown>>;
}

/** What a command did; who called it decides where each part goes. */
export interface Outcome {
  /** The sheet it made, or, for a command that measures, the one it read. */
  readonly sheet?: Sheet;
  /** The sheet with its measures drawn on it, for a command that measures. */
  readonly drawn?: Sheet;
  /** A plain drawing as SVG text, for a command that writes no sheet yet. */
  readonly drawing?: string;
  /** Pages, for a command that writes no sheet. */
  readonly pdf?: Uint8Array;
  /** A picture, for a command that draws one; made only when it is wanted. */
  readonly scene?: () => Promise<Scene>;
  /** Files that an option of its own asks for. */
  readonly files?: readonly WantedFile[];
  /** What was read, to standard output and without a word, for a command told to give out as it is what it cannot work on. */
  readonly asRead?: Uint8Array;
  readonly report: Report;
  readonly findings: readonly Finding[];
  /** True where a check found something: exit code 1. */
  readonly found?: boolean;
}

export interface Example {
  readonly line: string;
  readonly says: string;
}

/** One subcommand, its options already tied to its `run`. */
export interface Command {
  readonly name: string;
  readonly summary: string;
  readonly kind: CommandKind;
  /** What it works on, one or, of scans, many; a drawing's scale may have to be said. */
  readonly reads: 'sheets' | 'drawings' | 'both' | 'scans';
  /** Options whose value is a file: the record never names one. */
  readonly fileOptions: readonly string[];
  /** Whether it can be told to work on the left or the right panels alone. */
  readonly takesSide: boolean;
  /** Whether it can draw the pattern before and after. */
  readonly drawsOverlay: boolean;
  /** Whether another sheet, OTHER, is named before the one that it works on. */
  readonly takesOther: boolean;
  /** Options, as their values are named, with which it reads nothing. */
  readonly readsNothingWith: readonly string[];
  readonly examples: readonly Example[];
  /** Further lines of help: units, defaults, what an amount means. At most 80 columns. */
  readonly notes: readonly string[];
  /** The form of a file that an option names, as lines of help; the first says which. */
  readonly sample?: readonly string[];
  declare(commander: Commander): Commander;
  run(options: OptionValues, job: Job): Promise<Outcome>;
}

interface CommandSpec<Options extends OptionValues> extends Omit<
  Command,
  'declare' | 'run' | 'reads' | 'fileOptions' | 'takesSide' | 'drawsOverlay' | 'takesOther' | 'readsNothingWith'
> {
  readonly reads?: Command['reads'];
  readonly fileOptions?: readonly string[];
  readonly takesSide?: boolean;
  readonly drawsOverlay?: boolean;
  readonly takesOther?: boolean;
  readonly readsNothingWith?: readonly string[];
  declare(commander: Commander): Commander<[], Options>;
  run(options: Options, job: Job): Promise<Outcome>;
}

/** Keeps the types of the options between what a command declares and what it runs on. */
export const defineCommand = <Options extends OptionValues>(spec: CommandSpec<Options>): Command => ({
  ...spec,
  reads: spec.reads ?? 'sheets',
  fileOptions: spec.fileOptions ?? [],
  takesSide: spec.takesSide ?? true,
  drawsOverlay: spec.drawsOverlay ?? false,
  takesOther: spec.takesOther ?? false,
  readsNothingWith: spec.readsNothingWith ?? [],
  declare: (commander) => spec.declare(commander) as unknown as Commander,
  run: (options, job) => spec.run(options as Options, job),
});
