import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { StaywrightError } from '../errors.ts';
import type { Drawing } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Units } from '../pattern/pattern.ts';
import { decodeText } from '../svg/decode-xml.ts';
import { joinSheets } from '../svg/join-sheets.ts';
import { readSvg, type SvgReading } from '../svg/read-svg.ts';
import type { Sheet } from '../svg/sheet.ts';
import type { Job } from './job.ts';
import { notSplit, takeSide } from './one-side.ts';
import { parseSquareSide } from './parse-square-side.ts';
import { isDrawnPicture } from './file-start.ts';
import { isFolder } from './stats-of.ts';

/** A sheet with what its reader wondered about. */
export interface SheetRead {
  readonly sheet: Sheet;
  readonly units: Units;
  readonly findings: readonly Finding[];
}

/** The sheet that a command works on, from a file, a folder of sheets or standard input; a plain drawing is refused. */
export const readSheet = async (job: Job): Promise<SheetRead> => {
  const reading = await readSheetOrDrawing(job);
  if (reading.kind === 'sheet') return reading;
  throw new StaywrightError('input', 'is a plain drawing, not a sheet yet', {
    where: reading.drawing.name,
    hint: 'name its panels, seams and levels first: staywright help label',
  });
};

/** A plain drawing and where it was read from. */
export interface DrawingRead {
  readonly kind: 'drawing';
  readonly drawing: Drawing;
  readonly findings: readonly Finding[];
}

/** As `readSheet`, for commands that know what to do with a plain drawing. */
export const readSheetOrDrawing = async (job: Job): Promise<(SheetRead & { readonly kind: 'sheet' }) | DrawingRead> => {
  const reading =
    job.input !== undefined && isFolder(job.input)
      ? await readFolder(job.input, job)
      : await readOne(job.input ?? '-', job);
  if (reading.kind === 'drawing') {
    if (job.shared.side !== undefined) throw notSplit(reading.drawing.name);
    return { ...reading, findings: reading.drawing.warnings.map((message) => warning(reading.drawing.name, message)) };
  }
  const { warnings } = reading;
  const sheet = job.shared.side === undefined ? reading.sheet : takeSide(reading.sheet, job.shared.side);
  return {
    kind: 'sheet',
    sheet,
    units: job.shared.units ?? sheet.pattern.units,
    findings: warnings.map((message) => warning(sheet.pattern.name, message)),
  };
};

const readOne = async (path: string, job: Job): Promise<SvgReading> => {
  const { name, bytes } = await job.readFile(path);
  const { scale, testSquare, within } = job.shared;
  return readSvg(decodeText(bytes, name), name, {
    ...(scale === undefined ? {} : { scale: parseScale(scale) }),
    ...(testSquare === undefined ? {} : { testSquare: parseSquareSide(testSquare) }),
    ...(within === undefined ? {} : { within }),
  });
};

/** A picture that was drawn into the folder lies beside its sheets, as the pages do. */
const readFolder = async (folder: string, job: Job): Promise<SvgReading> => {
  const names = readdirSync(folder)
    .filter((name) => /\.svg$/i.test(name) && !name.startsWith('.') && !isDrawnPicture(join(folder, name)))
    .toSorted();
  if (names.length === 0) throw new StaywrightError('input', 'holds no .svg file', { where: folder });
  const parts = [];
  for (const name of names) {
    const path = join(folder, name);
    const reading = await readOne(path, job);
    if (reading.kind === 'drawing') {
      throw new StaywrightError('input', 'is a plain drawing among the sheets of a folder', {
        where: path,
        hint: 'move it out, or read it alone',
      });
    }
    parts.push({ name: path, sheet: reading.sheet });
  }
  return { kind: 'sheet', sheet: joinSheets(parts), warnings: [] };
};

const parseScale = (text: string): number => {
  const scale = Number(text);
  if (text.trim() !== '' && Number.isFinite(scale) && scale > 0) return scale;
  throw new StaywrightError('usage', `'${text}' is not a factor`, { where: '--scale', hint: 'a factor is like 1.25' });
};

/** A warning that names its own place in the file needs no other. */
const warning = (file: string, message: string): Finding => {
  const [, where = file, words = message] = /^(.+?:\d+:\d+): (.+)$/s.exec(message) ?? [];
  return { weight: 'warning', kind: 'reading', where, message: words };
};
