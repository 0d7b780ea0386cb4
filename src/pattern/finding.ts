/** Something a maker should know, returned as data by whoever noticed it; only the command line prints. */
export interface Finding {
  /** `error`: the pattern is broken; `warning`: it may go wrong on the table; `note`: worth knowing. */
  readonly weight: 'error' | 'warning' | 'note';
  /** A short stable name for programs: `mates-differ`, `notch-off-edge`, ... */
  readonly kind: string;
  /** The place in a maker's words: `side, waist` or `panel front, edge cf`. */
  readonly where: string;
  readonly message: string;
  /** What to do about it. */
  readonly cure?: string;
}
