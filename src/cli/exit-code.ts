import { StaywrightError } from '../errors.ts';

/** What the exit codes mean; 130 (Ctrl-C) is the shell's own word for a process that an interrupt ended. */
export const EXIT = {
  done: 0,
  found: 1,
  usage: 2,
  impossible: 3,
  bug: 70,
} as const;

/** The exit code for whatever was thrown: anything but a StaywrightError is a bug. */
export const exitCodeOf = (error: unknown): number => {
  if (!(error instanceof StaywrightError)) return EXIT.bug;
  return error.code === 'impossible' ? EXIT.impossible : EXIT.usage;
};
