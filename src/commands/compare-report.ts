import type { Report } from '../cli/command.ts';
import { wrapWords } from '../cli/wrap-words.ts';
import type { Comparison } from '../measure/compare/comparison.ts';
import { edgeParts } from './compare-edges-report.ts';
import { compareJson } from './compare-json.ts';
import { compareLastLine } from './compare-last-line.ts';
import { markLines } from './compare-marks-report.ts';
import { angleTable, comparedGirths, notchTable, seamTable } from './compare-seams-report.ts';
import type { Version, Versions } from './compare-versions.ts';

const WIDTH = 80;

/** What two versions differ in, in a maker's words: which two, what moved edge by edge, seams, angles, girths, and what matters most last. */
export const compareReport = (found: Comparison, versions: Versions): Report => ({
  text: () => textOf(found, versions),
  last: () => compareLastLine(found, versions.units),
  json: () => compareJson(found, versions),
});

const textOf = (found: Comparison, versions: Versions): string => {
  const { units } = versions;
  const parts = found.differs
    ? [
        ...edgeParts(found, units),
        markLines(found, units).map(wrapped).join(''),
        notchTable(found, units),
        seamTable(found, units),
        angleTable(found),
        comparedGirths(found, units),
      ]
    : edgeParts(found, units);
  return [headLines(found, versions), ...parts].filter((part) => part !== '').join('\n');
};

/** Lines after the first stand in a little. */
const wrapped = (text: string): string => `${wrapWords(text, WIDTH - 2).join('\n  ')}\n`;

const headLines = ({ sharesFrame, line }: Comparison, { before, after }: Versions): string => {
  const how = sharesFrame
    ? 'Laid on each other in their own coordinates, as versions of one pattern.'
    : 'Laid on each other panel by panel: waist line on waist line, the middle of the waist on the middle of the waist.';
  return [
    `before: ${versionWords(before)}\n`,
    `after:  ${versionWords(after)}\n`,
    ...(sharesFrame ? [...ownLines('done since', after), ...ownLines('done to the first only', before)] : []),
    wrapped(line === 'cutting' ? `${how} Both show cutting lines.` : how),
  ].join('');
};

const versionWords = ({ sheet, hash }: Version): string => `${sheet.pattern.name} (${hash.slice(0, 8)})`;

const ownLines = (says: string, { own }: Version): string[] =>
  own.length === 0
    ? []
    : [`${says}:\n`, ...own.map((command) => `  ${wrapWords(command, WIDTH - 6).join('\n    ')}\n`)];
