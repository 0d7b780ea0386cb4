import type { Outcome } from '../cli/command.ts';
import type { Job } from '../cli/job.ts';
import { wholeSheet } from '../cli/one-side.ts';
import { readSheet, type SheetRead } from '../cli/read-sheet.ts';
import { StaywrightError, usage } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import { recordChain, stepsSince } from '../record/record-chain.ts';
import { versionsOf } from '../record/versions-of.ts';
import { recordOriginal } from './record-original.ts';
import { replayRecord, sourceOf, type Source } from './record-replay.ts';
import { isVerified, verifyReport } from './record-verify-report.ts';

/** Runs the record of a sheet again from an original and compares every step with it. */
export const verifyRecord = async (
  path: string,
  otherPaths: readonly string[],
  { sheet, findings }: SheetRead,
  job: Job,
): Promise<Outcome> => {
  const { name, panels } = sheet.pattern;
  if (sheet.part !== undefined) {
    throw new StaywrightError('input', `holds ${panels[0]!.name} alone, one panel of ${sheet.part.of}`, {
      where: name,
      hint: 'verify the folder that it lies in, which holds all of them: DIR/',
    });
  }
  if ([job.input ?? '-', path, ...otherPaths].filter((each) => each === '-').length > 1) {
    throw usage('standard input holds one sheet, not two', '--verify', 'name one of them as a file');
  }
  const hash = hashGeometry(sheet.pattern);
  const chain = recordChain(sheet.record);
  const { source, version } = await recordOriginal(path, name, { chain, versions: versionsOf(chain, hash) }, job);
  const steps = stepsSince(chain, version);
  const others = new Map<string, Source>();
  const unused: Finding[] = [];
  for (const other of otherPaths) {
    const given = sourceOf(wholeSheet((await readSheet({ ...job, input: other })).sheet), other);
    others.set(given.hash!, given);
    if (!steps.some(({ change }) => change.other === given.hash)) unused.push(unusedOther(other));
  }
  const replay = await replayRecord(steps, source, { units: sheet.pattern.units, find: job.find, others });
  const verified = { name, replay, original: source.hash, sheet: hash };
  return {
    sheet,
    report: verifyReport(verified),
    findings: [...findings, ...unused],
    found: !isVerified(verified),
  };
};

const unusedOther = (where: string): Finding => ({
  weight: 'warning',
  kind: 'record',
  where,
  message: 'no step took parts of this sheet',
});
