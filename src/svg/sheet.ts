import type { Point } from '../geometry/point.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import type { Change } from '../record/change.ts';

/** What one file holds: a pattern, the record of its changes, and the other artwork round the panels. */
export interface Sheet {
  readonly pattern: Pattern;
  readonly record: readonly Change[];
  /** Panels of the side that a run leaves alone: they are no part of `pattern` until the sheet is written. */
  readonly aside?: readonly Panel[];
  /** How the panels lay on the sheet that was read: they stay there while they have room. */
  readonly placing?: Placing;
  /** Cleaned markup kept outside the panels. */
  readonly art?: string;
  /** Where the file holds one panel of a pattern kept a panel a file: which of how many, from 1. */
  readonly part?: SheetPart;
}

/** How panels lie on a sheet. It is no part of their geometry. */
export interface Placing {
  readonly width: number;
  readonly height: number;
  /** By name: where each panel's own origin stands. */
  readonly panels: ReadonlyMap<string, Point>;
}

export interface SheetPart {
  readonly number: number;
  readonly of: number;
}
