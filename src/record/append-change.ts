import type { Change } from './change.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { changedPanels } from './changed-panels.ts';
import { hashGeometry } from './hash-geometry.ts';
import { nextStep } from './step-of.ts';

/** What is known of one change; `before` is absent where a plain drawing was read. */
export interface Done {
  readonly command: string;
  readonly version: string;
  readonly before?: Pattern;
  readonly after: Pattern;
  /** The other pattern, for a command that took parts of one. */
  readonly other?: Pattern;
  readonly girths: Change['girth_mm'];
}

/** The record with one line more. */
export const appendChange = (
  record: readonly Change[],
  { command, version, before, after, other, girths }: Done,
): Change[] => {
  const panels = before === undefined ? undefined : changedPanels(before, after);
  return [
    ...record,
    {
      command,
      version,
      step: nextStep(record),
      ...(panels === undefined ? {} : { panels }),
      before: before === undefined ? null : hashGeometry(before),
      after: hashGeometry(after),
      ...(other === undefined ? {} : { other: hashGeometry(other) }),
      girth_mm: girths,
    },
  ];
};
