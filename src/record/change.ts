/** One line of the record of changes: what was typed, with which version, and what it did. */
export interface Change {
  /** The command as typed, normalised, without file names. */
  readonly command: string;
  readonly version: string;
  /**
   * Its number in the chain, from 1. Two changes of one number were made apart, each on its own version, and joined since. Absent in
   * records written before changes were numbered.
   */
  readonly step?: number;
  /** The panels whose geometry it changed; absent where it changed all of them or none, and where there was nothing before. */
  readonly panels?: readonly string[];
  /** Hash of the geometry before; null where there was none (a plain drawing). */
  readonly before: string | null;
  readonly after: string;
  /** Hash of the other pattern's geometry, for a command that took parts of one. */
  readonly other?: string;
  /** Girth before and after at every level, in millimetres. */
  readonly girth_mm: Readonly<Record<string, { readonly before: number | null; readonly after: number }>>;
}
