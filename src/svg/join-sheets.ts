import { StaywrightError } from '../errors.ts';
import type { Sheet } from './sheet.ts';

export interface NamedSheet {
  /** Its file, for messages. */
  readonly name: string;
  readonly sheet: Sheet;
}

const HINT = 'two versions may have been mixed up: write the whole folder again from one of them';

/**
 * Puts the sheets of one folder together again, in their order. Throws an `input` error that names the files where their records,
 * settings or panels do not belong together, or where one is missing. A whole sheet alone is itself.
 */
export const joinSheets = (files: readonly NamedSheet[]): Sheet => {
  const [first] = files;
  if (!first) throw new StaywrightError('input', 'there is no sheet to read');
  const fail = (file: NamedSheet, message: string): never => {
    throw new StaywrightError('input', message, { where: file.name, hint: HINT });
  };
  const whole = files.find(({ sheet }) => !sheet.part);
  if (whole && files.length === 1) return whole.sheet;
  if (whole) {
    const other = files.find((file) => file !== whole)!;
    fail(whole, `this is a whole pattern, so ${other.name} beside it cannot belong to it`);
  }
  for (const file of files) {
    if (recordOf(file) !== recordOf(first)) fail(file, `its record of changes differs from that of ${first.name}`);
    if (settingsOf(file) !== settingsOf(first))
      fail(file, `its name, pieces or units differ from those of ${first.name}`);
  }
  const ordered = files.toSorted((a, b) => a.sheet.part!.number - b.sheet.part!.number);
  ordered.forEach((file, i) => {
    const { number, of } = file.sheet.part!;
    if (i > 0 && ordered[i - 1]!.sheet.part!.number === number) {
      fail(file, `it is panel ${number} of ${of}, and so is ${ordered[i - 1]!.name}`);
    }
  });
  const { of } = first.sheet.part!;
  const numbers = new Set(files.map(({ sheet }) => sheet.part!.number));
  const missing = Array.from({ length: of }, (_, i) => i + 1).filter((number) => !numbers.has(number));
  if (missing.length > 0) fail(first, `of the ${of} panels, number ${missing.join(', ')} is missing beside it`);

  const panels = ordered.flatMap(({ sheet }) => sheet.pattern.panels);
  const twice = panels.find((panel, i) => panels.findIndex(({ name }) => name === panel.name) < i);
  if (twice)
    fail(
      ordered.findLast(({ sheet }) => sheet.pattern.panels.includes(twice))!,
      `two panels are named ${twice.name}`,
    );
  const art = ordered.flatMap(({ sheet }) => (sheet.art === undefined ? [] : [sheet.art])).join('\n');
  const { pattern, record } = first.sheet;
  return { pattern: { ...pattern, panels }, record, ...(art === '' ? {} : { art }) };
};

const recordOf = ({ sheet }: NamedSheet): string => JSON.stringify(sheet.record);

const settingsOf = ({ sheet: { part, pattern } }: NamedSheet): string =>
  JSON.stringify([pattern.name, pattern.pieces, pattern.units, part!.of]);
