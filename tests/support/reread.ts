import type { Pattern } from '../../src/pattern/pattern.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { sheetOf } from '../svg/drawn-svg.ts';

/** The pattern as the next command reads it: written with 3 decimals, and read. */
export const reread = (pattern: Pattern): Pattern => sheetOf(writeSheet({ pattern, record: [] })).pattern;
