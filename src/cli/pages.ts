import { StaywrightError } from '../errors.ts';
import { paperNamed } from '../print/paper-size.ts';
import { printPattern } from '../print/print-pattern.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import type { Sheet } from '../svg/sheet.ts';
import type { SharedOptions } from './command.ts';
import { parseLength } from './parse-length.ts';
import { VERSION } from './version.ts';

const MARGIN = '10mm';
const OVERLAP = '10mm';

/** The sheet as pages to print, on the paper that the options name. */
export const pagesOf = ({ pattern, record }: Sheet, options: SharedOptions): Promise<Uint8Array> =>
  printPattern(pattern, {
    paper: paperNamed(options.paper ?? 'a4'),
    margin: parseRoom(options.margin ?? MARGIN, '--margin'),
    overlap: parseRoom(options.overlap ?? OVERLAP, '--overlap'),
    hash: hashGeometry(pattern),
    changes: record.map(({ command }) => command),
    version: VERSION,
    title: pattern.name,
  });

const parseRoom = (text: string, where: string): number => {
  const room = parseLength(text, where);
  if (room >= 0) return room;
  throw new StaywrightError('usage', 'cannot be negative', { where });
};
