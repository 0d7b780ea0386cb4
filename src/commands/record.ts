import { collect } from '../cli/collect.ts';
import { defineCommand, type Outcome, type Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import type { Job } from '../cli/job.ts';
import { readSheet, type SheetRead } from '../cli/read-sheet.ts';
import { statsOf } from '../cli/stats-of.ts';
import { withEnding } from '../cli/with-ending.ts';
import { StaywrightError, usage } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { findVersion, isHash, shortHash, whichVersion } from '../record/find-version.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import { chainEnd, recordChain, stepsSince } from '../record/record-chain.ts';
import { shellWord } from '../record/shell-word.ts';
import { sharedVersion } from '../record/shared-version.ts';
import { versionsOf, type Version } from '../record/versions-of.ts';
import type { Sheet } from '../svg/sheet.ts';
import { changedSince } from './changed-since.ts';
import { stepJson } from './record-json.ts';
import type { Known } from './record-original.ts';
import { recordScript } from './record-script.ts';
import { stepName } from './record-step.ts';

export const record = defineCommand({
  name: 'record',
  summary: 'every change as a shell script, to read or to run again',
  kind: 'look',
  takesSide: false,
  fileOptions: ['--verify', '--other'],
  examples: [
    { says: 'what was done to this sheet, and what did it do?', line: 'staywright record v4.svg' },
    {
      says: 'the script beside the sheet; then the same changes from the drawing again',
      line: 'staywright record v4.svg -o changes.sh\nsh changes.sh drawn.svg > again.svg',
    },
    {
      says: 'what one command adds to it',
      line: 'staywright take-in net.svg --seam cb --amount 6mm | staywright record',
    },
    { says: 'what was changed since another version', line: 'staywright record v4.svg --since v2.svg' },
    {
      says: 'does every step still give what it gave then?',
      line: 'staywright record v4.svg --verify drawn.svg',
    },
  ],
  notes: [
    'The script works on the plain drawing that the record begins with; with --since on the version with that hash, or on the last one that both records share. A splice asks for its other sheet as one argument more. staywright must be on the PATH.',
    '--verify runs the steps here and compares the hash of the shape after each; ORIGINAL is the drawing, or the sheet that any step made. Exit code 1: a step gives something else, or the sheet is not what the last one left.',
  ],
  declare: (commander) =>
    commander
      .option('-o, --output <file>', 'write FILE.sh')
      .option('--since <version>', 'only what follows it: a hash (6 characters or more) or a sheet')
      .option('--verify <original>', 'run the steps again from that file and compare')
      .option('--other <file>', 'with --verify: the other sheet of a splice; repeatable', collect)
      .option('--force', 'replace a file that staywright did not write'),
  run: async ({ output, since, verify, other, force }, job) => {
    const idle = verify === undefined ? other && '--other' : ((since && '--since') ?? (output && '--output'));
    if (idle) throw usage(verify === undefined ? 'goes with --verify' : 'cannot go with --verify', idle);
    if (force && (output ?? '-') === '-') throw usage('there is no file to replace', '--force', 'add -o FILE.sh');
    const read = await readSheet(job);
    if (read.sheet.record.length === 0) throw noRecord(read.sheet);
    if (verify !== undefined) {
      const { verifyRecord } = await import('./record-verify.ts');
      return verifyRecord(verify, other ?? [], read, job);
    }
    return scriptOf(read, since, output, job);
  },
});

const noRecord = ({ pattern }: Sheet, where = pattern.name): StaywrightError =>
  new StaywrightError('input', 'holds no record of changes', {
    where,
    hint: 'a drawing program may have dropped it: go back to the sheet as staywright wrote it',
  });

const scriptOf = async (
  { sheet, units, findings }: SheetRead,
  since: string | undefined,
  output: string | undefined,
  job: Job,
): Promise<Outcome> => {
  const chain = recordChain(sheet.record);
  const hash = sheet.part === undefined ? { sheet: hashGeometry(sheet.pattern) } : {};
  const versions = versionsOf(chain, hash.sheet);
  const from =
    since === undefined
      ? { version: versions[0], findings: [] }
      : await versionSince(since, sheet.pattern.name, { chain, versions }, job);
  const steps = stepsSince(chain, from.version);
  const { name } = sheet.pattern;
  const changed = changedSince(sheet, chain).map(endWarning);
  if (steps.length === 0) {
    const json = { name, original: from.version.hash, steps: [], ends_with: from.version.hash };
    const report: Report = { text: () => '', json: () => json };
    return { sheet, report, findings: [...findings, nothingSince(name, from.version), ...changed] };
  }
  const script = recordScript({ name, units, chain, versions, steps, since: from.version, ...hash });
  const path = output === undefined || output === '-' ? undefined : withEnding(output, '.sh', '-o');
  const report: Report = {
    text: () => (path === undefined ? script : ''),
    ...(path === undefined ? {} : { last: () => `${name}: ${countOf(steps.length, 'step')} in ${path}` }),
    json: () => ({
      name,
      original: from.version.hash,
      steps: steps.map(stepJson),
      ends_with: chainEnd(chain) ?? hash.sheet ?? null,
    }),
  };
  return {
    sheet,
    report,
    findings: [...findings, ...from.findings, ...changed],
    ...(path === undefined ? {} : { files: [{ path, bytes: script }] }),
  };
};

/** The version that the script begins with, and what is to be said of it. */
const versionSince = async (
  since: string,
  name: string,
  { chain, versions }: Known,
  job: Job,
): Promise<{ readonly version: Version; readonly findings: readonly Finding[] }> => {
  if (isHash(since)) return { version: findVersion(versions, since, '--since'), findings: [] };
  if (since !== '-' && !/\.svg$/i.test(since) && statsOf(since) === undefined) {
    const hint = `give a sheet, or a hash that staywright record shows; a sheet out of git: git show ${shellWord(since)}:FILE.svg > before.svg`;
    throw usage(`${since} is neither a hash nor a file`, '--since', hint);
  }
  if (since === '-' && (job.input ?? '-') === '-') throw usage('standard input holds one sheet, not two', '--since');
  const { sheet: other } = await readSheet({ ...job, input: since });
  if (other.record.length === 0) throw noRecord(other, since);
  const hash = other.part === undefined ? hashGeometry(other.pattern) : undefined;
  const version = sharedVersion(versions, chain, other.record, hash);
  if (version === undefined) {
    throw usage(`${since} shares no version with ${name}`, '--since', 'their first steps differ already');
  }
  const message = `the last version that both records share is ${told(version)}`;
  return { version, findings: [{ weight: 'note', kind: 'record', where: since, message }] };
};

const told = (version: Version): string => {
  const { by, step, hash } = version;
  if (by === 'origin') return 'the sheet that both begin with';
  return `${by === 'step' ? stepName(step!) : `the one ${whichVersion(version)}`}, ${shortHash(hash!)}`;
};

const nothingSince = (where: string, version: Version): Finding => ({
  weight: 'note',
  kind: 'record',
  where,
  message: `no command was run since ${told(version)}, so that there is no script`,
});

const endWarning = (changed: ReturnType<typeof changedSince>[number]): Finding => ({
  weight: 'warning',
  kind: 'record',
  ...changed,
  cure: 'the script gives the sheet as that step left it, without what was changed by hand',
});
