/**
 * The one error for what a user can mend. Anything else that is thrown is a bug.
 */

/** `usage` and `input` end with exit code 2, `impossible` (the alteration cannot be done on this shape) with 3. */
export type ErrorCode = 'usage' | 'input' | 'impossible';

export interface ErrorDetail {
  /** What to do about it: printed as a second line. */
  readonly hint?: string;
  /** File, panel, edge, option or `file:line:column`: printed before the message. */
  readonly where?: string;
  readonly cause?: unknown;
}

export class StaywrightError extends Error {
  override readonly name = 'StaywrightError';
  readonly hint: string | undefined;
  readonly where: string | undefined;

  constructor(
    readonly code: ErrorCode,
    message: string,
    detail: ErrorDetail = {},
  ) {
    super(message, { cause: detail.cause });
    this.hint = detail.hint;
    this.where = detail.where;
  }
}

/** Wrong usage: what is wrong with which option, and what to type instead. */
export const usage = (message: string, where: string, hint?: string): StaywrightError =>
  new StaywrightError('usage', message, { where, ...(hint === undefined ? {} : { hint }) });
