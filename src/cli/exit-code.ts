import { StaywrightError } from '../errors.ts';

/** What the exit codes mean; 130 (Ctrl-C) is the shell's own word for a process that an interrupt ended. */
export const EXIT = {
  done: 0,
  found: 1,
  usage: 2,
  impossible: 3,
  bug: 70,
} as const;

/** Each of them in a maker's words. */
export const EXIT_MEANINGS: readonly (readonly [code: number, meaning: string])[] = [
  [EXIT.done, 'done'],
  [EXIT.found, 'a check, a walk or a comparison found something'],
  [EXIT.usage, 'something typed is wrong, or a file cannot be read'],
  [EXIT.impossible, 'the alteration cannot be done on this shape'],
  [EXIT.bug, 'a bug in staywright; the message says how to report it'],
  [130, 'stopped by Ctrl-C'],
];

/** The exit code for whatever was thrown: anything but a StaywrightError is a bug. */
export const exitCodeOf = (error: unknown): number => {
  if (!(error instanceof StaywrightError)) return EXIT.bug;
  return error.code === 'impossible' ? EXIT.impossible : EXIT.usage;
};
