import type { z } from 'zod';
import * as alterations from './alterations.ts';
import * as measures from './measures.ts';
import * as sheets from './sheets.ts';
import * as versions from './versions.ts';

/** What the `--json` report of each command holds, every key of it, by the command's name. */
export const REPORT_SCHEMAS: Readonly<Record<string, z.ZodType>> = {
  trace: sheets.trace,
  label: sheets.label,
  check: sheets.check,
  'strip-allowance': sheets.stripAllowance,
  'add-allowance': sheets.addAllowance,
  girth: measures.girth,
  gap: measures.gap,
  walk: measures.walk,
  'take-in': alterations.takeIn,
  'let-out': alterations.letOut,
  'raise-line': alterations.raiseLine,
  lengthen: alterations.lengthen,
  shorten: alterations.shorten,
  slash: alterations.slash,
  'redraw-edge': alterations.redrawEdge,
  gusset: alterations.gusset,
  splice: alterations.splice,
  true: alterations.trueSeams,
  'split-sides': alterations.splitSides,
  print: sheets.print,
  picture: sheets.picture,
  compare: versions.compare,
  describe: versions.describe,
  record: versions.record,
};
