import type { RedrawCutting } from '../alterations/alter-panels.ts';
import type { Outcome, Report } from '../cli/command.ts';
import type { Job } from '../cli/job.ts';
import { wholeSheet } from '../cli/one-side.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import type { Sheet } from '../svg/sheet.ts';

/** What an alteration gives back. */
export interface Altered<Change> {
  readonly pattern: Pattern;
  readonly change: Change;
  readonly findings: readonly Finding[];
}

/**
 * Reads the job's sheet, alters it, records the change and reports it: what every command that alters a pattern runs. `other` is the
 * pattern that parts came from, for the record.
 */
export const alterSheet = async <Change>(
  job: Job,
  options: Readonly<Record<string, unknown>>,
  alter: (pattern: Pattern, redrawCutting: RedrawCutting | undefined) => Altered<Change>,
  report: (change: Change, before: Pattern, units: Units) => Report,
  other?: Pattern,
): Promise<Outcome> => {
  const { sheet, units, findings } = await readSheet(job);
  const drawn = sheet.pattern.panels.some(({ cutting }) => cutting !== undefined);
  const redraw = drawn ? (await import('../alterations/allowance/redraw-cutting.ts')).redrawCutting : undefined;
  const altered = alter(sheet.pattern, redraw);
  // A run that changes nothing writes what it read, its record too.
  const after =
    altered.pattern === sheet.pattern
      ? wholeSheet(sheet)
      : recordChange(sheet, altered.pattern, job.canonical(options), other);
  return {
    sheet: after,
    ...(await overlayOf(job, wholeSheet(sheet), after, units)),
    report: report(altered.change, sheet.pattern, units),
    findings: [...findings, ...altered.findings],
  };
};

/** The picture that `--overlay` asks for: what was read and what became of it, laid over each other. */
const overlayOf = async (job: Job, before: Sheet, after: Sheet, units: Units): Promise<Pick<Outcome, 'files'>> => {
  const path = job.shared.overlay;
  if (path === undefined) return {};
  const { pictureFile } = await import('../cli/picture-file.ts');
  const { changeOverlay } = await import('./compare-overlay.ts');
  return { files: [await pictureFile(path, async () => changeOverlay(before, after, units), '--overlay')] };
};
