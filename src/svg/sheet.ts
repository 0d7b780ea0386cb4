import type { Change } from '../record/change.ts';
import type { Pattern } from '../pattern/pattern.ts';

/** What one file holds: a pattern, the record of its changes, and the other artwork round the panels. */
export interface Sheet {
  readonly pattern: Pattern;
  readonly record: readonly Change[];
  /** Cleaned markup kept outside the panels. */
  readonly art?: string;
}
