import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { StaywrightError } from '../errors.ts';
import { panelSheets } from '../svg/panel-sheets.ts';
import type { Sheet } from '../svg/sheet.ts';
import { writeSheet } from '../svg/write-sheet.ts';
import type { Command, Outcome } from './command.ts';
import type { SharedOptions } from './job.ts';
import { findingText } from './error-text.ts';
import { isDrawnPicture } from './file-start.ts';
import type { Job } from './job.ts';
import { wholeSheet } from './one-side.ts';
import { checkStandardOutput, planFiles, type WantedFile } from './plan-files.ts';
import { isFolder } from './stats-of.ts';
import { withEnding } from './with-ending.ts';
import { writeFiles } from './write-files.ts';
import { writeStream } from './write-stream.ts';

/** Everything that one run gives out. */
interface Delivery {
  readonly files: readonly WantedFile[];
  readonly newFolder?: string;
  readonly standardOutput?: string | Uint8Array;
  /** What a terminal was spared. */
  readonly hint?: string;
}

/** Checks all outputs, writes the files whole or not at all, then standard output, then the words. */
export const deliver = async (command: Command, outcome: Outcome, job: Job): Promise<void> => {
  const { dryRun = false, force = false, quiet = false, json = false } = job.shared;
  refuseIdleOptions(command, job.shared);
  if (outcome.asRead !== undefined) return writeStream(process.stdout, outcome.asRead);
  const delivery = await deliveryOf(command, outcome, job.shared);
  const { newFolder, standardOutput, hint } = delivery;
  const files = [...delivery.files, ...(outcome.files ?? [])];
  const folder = newFolder === undefined ? {} : { newFolder };
  const planned = planFiles(files, { inputs: job.inputs, force, ...folder });
  if (standardOutput !== undefined) checkStandardOutput(job.inputs);
  if (!dryRun && planned.length > 0) await writeFiles(planned, newFolder);
  if (!dryRun && standardOutput !== undefined) await writeStream(process.stdout, standardOutput);
  if (quiet) return;

  const free = standardOutput === undefined || dryRun;
  if (json) {
    const findings = outcome.findings.map((finding) => ({ ...finding }));
    const text = `${JSON.stringify({ findings, ...outcome.report.json() }, roundLengths, 2)}\n`;
    return writeStream(free ? process.stdout : process.stderr, text);
  }
  const written = files.map(({ path }) => `${dryRun ? 'would write' : 'wrote'} ${path}\n`);
  const aside = [...outcome.findings.map(findingText), ...written].join('');
  const text = outcome.report.text();
  const last = outcome.report.last === undefined ? '' : `${outcome.report.last()}\n`;
  if (REPORTS.has(command.kind) && free) {
    await writeStream(process.stderr, aside);
    await writeStream(process.stdout, text + last);
  } else {
    // Commands in a pipe share one screen: each says whose words follow.
    await writeStream(process.stderr, `${command.name}:\n${text}${aside}${last}`);
  }
  if (hint !== undefined && !dryRun) await writeStream(process.stderr, `${hint}\n`);
};

/** Commands whose words are what they were asked for. */
const REPORTS: ReadonlySet<Command['kind']> = new Set(['measure', 'look', 'overlay']);

const deliveryOf = async (command: Command, outcome: Outcome, shared: SharedOptions): Promise<Delivery> => {
  if (command.kind === 'pdf') return pdfDelivery(outcome, shared);
  if (command.kind === 'drawing') return drawingDelivery(outcome.drawing!, shared);
  if (command.kind === 'picture' || command.kind === 'overlay') return pictureDelivery(command, outcome, shared);
  if (command.kind !== 'sheet') return measureDelivery(outcome, shared);
  return sheetDelivery(outcome.sheet!, shared);
};

const sheetDelivery = async (sheet: Sheet, shared: SharedOptions): Promise<Delivery> => {
  const { output, pdf } = shared;
  const pages = async (path: string): Promise<WantedFile> => {
    const { pagesOf } = await import('./pages.ts');
    return { path, bytes: await pagesOf(sheet, shared) };
  };
  const printed = pdf === undefined ? [] : [await pages(withEnding(pdf, '.pdf', '--pdf'))];
  if (output === undefined || output === '-') {
    const hint = 'nothing was written: add -o FILE.svg, or pipe the sheet on to the next command';
    if (output === undefined && process.stdout.isTTY)
      return printed.length > 0 ? { files: printed } : { files: [], hint };
    return { files: printed, standardOutput: writeSheet(sheet) };
  }
  if (!isFolderName(output)) {
    return { files: [{ path: withEnding(output, '.svg', '-o'), bytes: writeSheet(sheet) }, ...printed] };
  }
  const files = panelSheets(sheet).map(({ name, text }) => ({ path: join(output, `${name}.svg`), bytes: text }));
  refuseStrangers(output, files, shared.force === true);
  const newFolder = existsSync(output) ? {} : { newFolder: output };
  return { files: [...files, await pages(join(output, 'print.pdf')), ...printed], ...newFolder };
};

const drawingDelivery = (drawing: string, { output }: SharedOptions): Delivery => {
  if (output !== undefined && output !== '-') {
    return { files: [{ path: withEnding(output, '.svg', '-o'), bytes: drawing }] };
  }
  const hint = 'no drawing was written: add -o FILE.svg, or pipe it on to label';
  if (output === undefined && process.stdout.isTTY) return { files: [], hint };
  return { files: [], standardOutput: drawing };
};

const measureDelivery = async (outcome: Outcome, shared: SharedOptions): Promise<Delivery> => {
  const through = shared.through === true ? { standardOutput: writeSheet(wholeSheet(outcome.sheet!)) } : {};
  if (shared.output === undefined || outcome.drawn === undefined) return { files: [], ...through };
  return { ...(await sheetDelivery(outcome.drawn, shared)), ...through };
};

const pdfDelivery = async (outcome: Outcome, shared: SharedOptions): Promise<Delivery> => {
  const bytes = outcome.pdf!;
  const paths = [shared.output, shared.pdf].filter((path) => path !== undefined && path !== '-') as string[];
  if (paths.length > 0) return { files: paths.map((path) => ({ path: withEnding(path, '.pdf', '-o'), bytes })) };
  if (process.stdout.isTTY) return { files: [], hint: 'nothing was written: add -o FILE.pdf' };
  return { files: [], standardOutput: bytes };
};

const pictureDelivery = async (command: Command, outcome: Outcome, { output }: SharedOptions): Promise<Delivery> => {
  const { pictureFile, pictureText } = await import('./picture-file.ts');
  if (output !== undefined && output !== '-') return { files: [await pictureFile(output, outcome.scene!, '-o')] };
  if (command.kind === 'overlay' && output === undefined) return { files: [] };
  const hint = 'no picture was written: add -o FILE.svg, FILE.png or FILE.pdf';
  if (output === undefined && process.stdout.isTTY) return { files: [], hint };
  return { files: [], standardOutput: await pictureText(outcome.scene!) };
};

const isFolderName = (path: string): boolean => path.endsWith('/') || isFolder(path);

/** Sheets of another version left in a folder would be read together with the new ones. */
const refuseStrangers = (folder: string, files: readonly WantedFile[], force: boolean): void => {
  if (force || !existsSync(folder)) return;
  const ours = new Set(files.map(({ path }) => path));
  const stranger = readdirSync(folder).find(
    (name) => /\.svg$/i.test(name) && !ours.has(join(folder, name)) && !isDrawnPicture(join(folder, name)),
  );
  if (stranger === undefined) return;
  throw new StaywrightError('usage', `holds another sheet, ${stranger}, that would be read with the new ones`, {
    where: folder,
    hint: 'choose an empty folder, or write beside it with --force',
  });
};

/** Paper is chosen for pages only; an option that does nothing is a misunderstanding. */
const refuseIdleOptions = ({ kind }: Command, { output, pdf, paper, margin, overlap }: SharedOptions): void => {
  if (kind === 'pdf' || pdf !== undefined || (output !== undefined && isFolderName(output))) return;
  const option = [paper && '--paper', margin && '--margin', overlap && '--overlap'].find(Boolean);
  if (option !== undefined) {
    throw new StaywrightError('usage', 'there are no pages to print', { where: option, hint: 'add --pdf FILE.pdf' });
  }
};

/** Millimetres with 3 decimals, and no minus zero. */
const roundLengths = (_key: string, value: unknown): unknown =>
  typeof value === 'number' ? Math.round(value * 1000) / 1000 || 0 : value;
