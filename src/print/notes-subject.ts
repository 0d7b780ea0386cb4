import type { Pattern } from '../pattern/pattern.ts';
import type { PageLayout, Piece } from './page-layout.ts';
import type { PrintOptions } from './print-options.ts';

/** What the notes at the front of a print speak of. */
export interface NotesSubject {
  readonly pattern: Pattern;
  readonly options: PrintOptions;
  readonly layout: PageLayout;
  readonly pieces: readonly Piece[];
}
