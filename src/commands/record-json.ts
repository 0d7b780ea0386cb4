import type { Step } from '../record/record-chain.ts';

/** One step of a record as JSON. */
export const stepJson = ({ number, change }: Step): Record<string, unknown> => ({
  step: number,
  command: change.command,
  version: change.version,
  before: change.before,
  after: change.after,
  ...(change.other === undefined ? {} : { other: change.other }),
  girth_mm: change.girth_mm,
});
