import { collect } from '../cli/collect.ts';
import { defineCommand, type Report } from '../cli/command.ts';
import { drawMeasures } from '../cli/draw-measures.ts';
import { figure, signedFigure } from '../cli/figure.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import { tableText } from '../cli/table-text.ts';
import { gap as measureGap, type GapReport, type WantedGap } from '../measure/gap.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { wantedGaps } from './wanted-gaps.ts';

export const gap = defineCommand({
  name: 'gap',
  summary: 'the lacing gap on a body, and what each level needs',
  kind: 'measure',
  examples: [
    {
      says: 'a body from a file; two inches open all the way down',
      line: 'staywright gap net.svg --body body.json --gap 2in',
    },
    {
      says: 'a body as typed, two inches smaller at the waist when laced',
      line: 'staywright gap net.svg --body bust=36in,waist=28in --reduction waist=2in',
    },
    {
      says: 'does taking in the back help?',
      line: 'staywright take-in net.svg --seam cb --amount 6mm |\n  staywright gap --body body.json',
    },
  ],
  notes: [
    'Pattern wanted = body - reduction - gap wanted, round the body at each level. The gap = body - reduction - pattern. A reduction is 0 and a gap wanted 2in where nothing says otherwise; flags win over the file.',
    'Warns where a reduction is over a tenth of the body. Whoever is short of breath, faint, numb or has heartburn must be unlaced at once; never lace so for sleep, sport, pregnancy or illness; in doubt ask a doctor first.',
  ],
  sample: [
    'body.json:',
    '  { "name": "Ada",',
    '    "levels": {',
    '      "bust": "36in",',
    '      "waist": { "girth": "28in", "reduction": "2in", "gap": "2in" },',
    '      "hip": "38 1/2in" } }',
  ],
  declare: (commander) =>
    commander
      .option('--body <body>', 'FILE.json, or girths: bust=36in,waist=28in; repeatable', collect)
      .option('--reduction <lengths>', 'waist=2in: how much smaller when laced (0)', collect)
      .option('--gap <lengths>', 'opening wanted: 2in, or waist=2in,hip=3in (2in)', collect),
  run: async (options, job) => {
    const { sheet, units, findings } = await readSheet(job);
    const { wanted, findings: skipped } = await wantedGaps(options, sheet.pattern, job);
    const report = measureGap(sheet.pattern, wanted);
    const says = report.rows.map((row, at) => ({
      level: wanted[at]!.level,
      says: ['lacing gap', formatLength(row.predictedGap, units)],
    }));
    return {
      sheet,
      drawn: recordChange(
        sheet,
        drawMeasures(sheet.pattern, says, units),
        `${job.canonical(flagsOf(wanted))} --through`,
      ),
      report: reportOf(report, units),
      findings: [...findings, ...skipped, ...report.findings],
    };
  },
});

/** The flags that say the same as a body file and flags together. */
const flagsOf = (wanted: readonly WantedGap[]): Record<string, string> => {
  const list = (length: (row: WantedGap) => number): string =>
    wanted.map((row) => `${row.level.text}=${Math.round(length(row) * 1000) / 1000}mm`).join(',');
  return { body: list(({ body }) => body), reduction: list(({ reduction }) => reduction), gap: list((row) => row.gap) };
};

const reportOf = ({ rows, evenness, shape, overTenth }: GapReport, units: Units): Report => {
  const table = tableText(
    [
      `in ${units === 'in' ? 'inches' : 'mm'}`,
      'body',
      'reduction',
      'gap wanted',
      'pattern wanted',
      'pattern',
      'gap',
      'needs',
    ],
    rows.map((row) => [
      row.level,
      figure(row.body, units),
      figure(row.reduction, units),
      figure(row.gapWanted, units),
      figure(row.wantedGirth, units),
      figure(row.patternGirth, units),
      figure(row.predictedGap, units),
      signedFigure(row.needs, units),
    ]),
  );
  const even =
    rows.length < 2 ? '' : `The opening is ${shape}; widest less narrowest: ${formatLength(evenness, units)}.\n`;
  const needs = rows.map(({ level, needs: mm }) => `${level} ${needText(mm, units)}`);
  return {
    text: () => `${table}\n${even}`,
    last: () => `Needed round the body: ${needs.join('; ')}.`,
    json: () => ({
      levels: rows.map((row) => ({
        level: row.level,
        body_mm: row.body,
        reduction_mm: row.reduction,
        gap_wanted_mm: row.gapWanted,
        wanted_girth_mm: row.wantedGirth,
        pattern_girth_mm: row.patternGirth,
        predicted_gap_mm: row.predictedGap,
        needs_mm: row.needs,
      })),
      evenness_mm: evenness,
      shape,
      over_tenth: overTenth,
    }),
  };
};

const needText = (mm: number, units: Units): string => {
  const size = formatLength(Math.abs(mm), units);
  if (!/[1-9]/.test(size)) return 'nothing';
  return mm > 0 ? `let out ${size}` : `take in ${size}`;
};
