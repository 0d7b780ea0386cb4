/** What is said of the tool as a whole, in its help and on its page of the manual. */
import type { Example } from './command.ts';

export const TOOL_SUMMARY = 'exact alterations for boned garments, on SVG pattern sheets';

export const TOOL_EXAMPLES: readonly Example[] = [
  {
    says: 'what does this size measure, once its seam allowance is off?',
    line: 'staywright strip-allowance sized.svg --allowance 15mm -o net.svg\nstaywright girth net.svg',
  },
  {
    says: 'take in the centre back above the waist, draw new allowance, print',
    line: 'staywright take-in net.svg --seam cb --amount 1/2in --above waist |\n  staywright add-allowance --allowance 15mm --pdf print.pdf -o cut.svg',
  },
];

export const STREAM_NOTES: readonly string[] = [
  'Sheets go to standard output and words to standard error, so commands pipe.',
  'With no FILE, or with -, the sheet is read from standard input.',
];

export const LENGTH_NOTE = 'Lengths carry their unit: 12mm, 1.2cm, 0.5in, 5/8in, "1 1/2in".';

export const LEVEL_NOTE = 'Levels: waist, waist+2in (above it), waist-3in (below it), top, bottom.';

export const REPORTS_NOTE = 'What a --json report holds: shared/reports/COMMAND.schema.json in the package.';

export const LACING_CAUTION =
  'Whoever is short of breath, faint, numb or has heartburn must be unlaced at once; never lace so for sleep, sport, pregnancy or illness; in doubt ask a doctor first.';
