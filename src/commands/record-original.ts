import type { Job } from '../cli/job.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { isFolder } from '../cli/stats-of.ts';
import { StaywrightError } from '../errors.ts';
import { nearest, shortHash, versionWith } from '../record/find-version.ts';
import { lastShared } from '../record/last-shared.ts';
import { recordChain, type Step } from '../record/record-chain.ts';
import { decodeText } from '../svg/decode-xml.ts';
import { parseXml } from '../svg/parse-xml.ts';
import { isSheet } from '../svg/read-sheet.ts';
import type { Sheet } from '../svg/sheet.ts';
import { sourceOf, type Source } from './record-replay.ts';

/** A version to run a record again from. */
export interface Original {
  readonly source: Source;
  /** Place in the chain of the step that made it, -1 where the chain begins. */
  readonly place: number;
}

/** Reads what the record is to be run again from, and finds it in the chain. Throws `input` where it is no version of it. */
export const recordOriginal = async (path: string, sheet: Sheet, job: Job): Promise<Original> => {
  const chain = recordChain(sheet.record);
  const plain = isFolder(path) ? undefined : await plainSource(path, job);
  const begins = chain[0]!.change.before;
  if (plain !== undefined) {
    if (begins === null) return { source: plain, place: -1 };
    throw new StaywrightError('input', 'is no sheet, but the record begins with one', {
      where: path,
      hint: `give the sheet ${shortHash(begins)}, or one that a step made: ${nearest('', chain)}`,
    });
  }
  const { sheet: given } = await readSheet({ ...job, input: path });
  const source = sourceOf(given, path);
  const place = placeOf(given, source.hash!, sheet, chain);
  if (place !== undefined) return { source, place };
  throw new StaywrightError('input', `is no version of ${sheet.pattern.name}: its hash is ${shortHash(source.hash!)}`, {
    where: path,
    hint: `known are ${nearest(source.hash!, chain)}${begins === null ? ', or the plain drawing' : ''}`,
  });
};

/** A sheet whose own record is the beginning of this one says itself how far it has come. */
const placeOf = (given: Sheet, hash: string, sheet: Sheet, chain: readonly Step[]): number | undefined => {
  const place = given.record.length - 1;
  const begins = place >= 0 && lastShared(given.record, sheet.record) === place;
  return begins && chain[place]?.change.after === hash ? place : versionWith(chain, hash);
};

/** A drawing or a scan; undefined for a sheet. */
const plainSource = async (path: string, job: Job): Promise<Source | undefined> => {
  const picture = await job.findPicture(path);
  const { pictureFormat } = await import('../scan/reading/picture-format.ts');
  const isScan = pictureFormat(picture.beginning).kind === 'read';
  const file = isScan ? { ...picture, bytes: picture.beginning } : await job.readFile(path);
  if (!isScan && isSheet(parseXml(decodeText(file.bytes, file.name), file.name))) return undefined;
  return { file, picture, hash: null };
};
