import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { VERSION } from './version.ts';

/** `staywright take-in: WHERE: message`, and the hint on lines of its own; for a bug, how to report it. */
export const errorText = (error: unknown, command: string | undefined): string => {
  const speaker = command === undefined ? 'staywright' : `staywright ${command}`;
  const stack = process.env['STAYWRIGHT_DEBUG'] === '1' && error instanceof Error ? `\n${error.stack}` : '';
  if (error instanceof StaywrightError) {
    const where = error.where === undefined ? '' : `${error.where}: `;
    const hint = error.hint === undefined ? '' : `\n  hint: ${hintLines(error.hint)}`;
    return `${speaker}: ${oneLine(where + error.message)}${hint}${stack}\n`;
  }
  const message = error instanceof Error ? error.message : String(error);
  const report =
    stack === ''
      ? 'run it again with STAYWRIGHT_DEBUG=1, and report what it says with the sheet'
      : 'report this with the sheet';
  return `${speaker}: this is a bug in staywright ${VERSION}: ${oneLine(message)}\n  hint: ${report}${stack}\n`;
};

/** A finding as the error lines are written: its weight, its place, and its cure on a line of its own. */
export const findingText = ({ weight, where, message, cure }: Finding): string =>
  `${weight}: ${oneLine(`${where}: ${message}`)}${cure === undefined ? '' : `\n  hint: ${oneLine(cure)}`}\n`;

/** Lines that are to be typed stand below what they are for. */
const hintLines = (hint: string): string => hint.split('\n').map(oneLine).join('\n        ');

/** Control characters from a file must not move the cursor of a terminal. */
// oxlint-disable-next-line no-control-regex
const oneLine = (text: string): string => text.replaceAll(/[\u0000-\u001f\u007f-\u009f]+/g, ' ');
