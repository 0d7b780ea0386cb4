import type { Job } from '../cli/job.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { isFolder } from '../cli/stats-of.ts';
import { StaywrightError } from '../errors.ts';
import { lastVersions, shortHash, versionWith } from '../record/find-version.ts';
import type { Step } from '../record/record-chain.ts';
import { sharedVersion } from '../record/shared-version.ts';
import type { Version } from '../record/versions-of.ts';
import { decodeText } from '../svg/decode-xml.ts';
import { isSheet } from '../svg/read-sheet.ts';
import { parseOrExplain } from '../svg/read-svg.ts';
import type { Sheet } from '../svg/sheet.ts';
import { sourceOf, type Source } from './record-replay.ts';

/** A version to run a record again from. */
export interface Original {
  readonly source: Source;
  readonly version: Version;
}

/** What a record knows of the versions of its sheet. */
export interface Known {
  readonly chain: readonly Step[];
  readonly versions: readonly [Version, ...Version[]];
}

/** Reads what the record is to be run again from, and finds it in the chain. Throws `input` where it is no version of it. */
export const recordOriginal = async (
  path: string,
  name: string,
  { chain, versions }: Known,
  job: Job,
): Promise<Original> => {
  const plain = isFolder(path) ? undefined : await plainSource(path, job);
  const [first] = versions;
  const begins = first.hash;
  if (plain !== undefined) {
    if (begins === null) return { source: plain, version: first };
    throw new StaywrightError('input', 'is no sheet, but the record begins with one', {
      where: path,
      hint: `give the sheet ${shortHash(begins)}, or one that a step made, such as\n${lastVersions(versions)}`,
    });
  }
  const { sheet: given } = await readSheet({ ...job, input: path });
  const source = sourceOf(given, path);
  const version = versionOf(given, source.hash!, { chain, versions });
  if (version !== undefined) return { source, version };
  throw new StaywrightError('input', `is no version of ${name}: its hash is ${shortHash(source.hash!)}`, {
    where: path,
    hint: `give ${begins === null ? 'the plain drawing, or ' : ''}a sheet that is known here, such as\n${lastVersions(versions)}`,
  });
};

/** A sheet whose own record is part of this one says itself how far it has come. */
const versionOf = ({ record }: Sheet, hash: string, { chain, versions }: Known): Version | undefined => {
  const shared = sharedVersion(versions, chain, record, hash);
  return shared?.hash === hash && shared.holds.size === record.length ? shared : versionWith(versions, hash);
};

/** A drawing or a scan; undefined for a sheet. */
const plainSource = async (path: string, job: Job): Promise<Source | undefined> => {
  const picture = await job.findPicture(path);
  const { pictureFormat } = await import('../scan/reading/picture-format.ts');
  const isScan = pictureFormat(picture.beginning).kind === 'read';
  const file = isScan ? { ...picture, bytes: picture.beginning } : await job.readFile(path);
  if (!isScan && isSheet(parseOrExplain(decodeText(file.bytes, file.name), file.name))) return undefined;
  return { file, picture, hash: null };
};
