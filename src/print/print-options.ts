import type { Paper } from './paper-size.ts';

export interface PrintOptions {
  readonly paper: Paper;
  /** Whichever takes fewer pages where none is asked for. */
  readonly orientation?: 'portrait' | 'landscape';
  /** White round every page and repeated strip between pages, in millimetres. */
  readonly margin: number;
  readonly overlap: number;
  /** Names the version on every page; its first characters are shown. */
  readonly hash: string;
  /** Commands of the record, oldest first; the last of them are shown. */
  readonly changes: readonly string[];
  readonly version: string;
  readonly title: string;
  /** Written into the document as its date; without one it has none, so that the same pattern gives the same bytes. */
  readonly date?: Date;
}
