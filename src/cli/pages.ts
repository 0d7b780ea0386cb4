import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { paperNamed } from '../print/paper-size.ts';
import { printFindings } from '../print/print-findings.ts';
import { printPattern } from '../print/print-pattern.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import type { Sheet } from '../svg/sheet.ts';
import { dateOf } from './date-of.ts';
import type { SharedOptions } from './job.ts';
import { wholePattern } from './one-side.ts';
import { parseLength } from './parse-length.ts';
import { VERSION } from './version.ts';

const MARGIN = '10mm';
const OVERLAP = '10mm';

/** The sheet as pages to print, on the paper that the options name; those of one side bear the version of the whole. */
export const pagesOf = ({ pattern, record, aside }: Sheet, options: SharedOptions): Promise<Uint8Array> =>
  printPattern(pattern, {
    paper: paperNamed(options.paper ?? 'a4'),
    margin: parseRoom(options.margin ?? MARGIN, '--margin'),
    overlap: parseRoom(options.overlap ?? OVERLAP, '--overlap'),
    hash: hashGeometry(wholePattern(pattern, aside)),
    changes: record.map(({ command }) => command),
    version: VERSION,
    title: pattern.name,
    ...dateOf(),
  });

/** What to know before those pages are printed: a margin that printers cut into, letters that no font has. */
export const pageFindings = ({ pattern, record }: Sheet, options: SharedOptions): Finding[] =>
  printFindings(pattern, {
    margin: parseRoom(options.margin ?? MARGIN, '--margin'),
    title: pattern.name,
    changes: record.map(({ command }) => command),
  });

const parseRoom = (text: string, where: string): number => {
  const room = parseLength(text, where);
  if (room >= 0) return room;
  throw new StaywrightError('usage', 'cannot be negative', { where });
};
