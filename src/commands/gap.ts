import { defineCommand, type Report } from '../cli/command.ts';
import { drawMeasures } from '../cli/draw-measures.ts';
import { figure, signedFigure } from '../cli/figure.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import { tableText } from '../cli/table-text.ts';
import { LACING_CAUTION } from '../cli/tool-texts.ts';
import { gap as measureGap, type GapReport, type WantedGap } from '../measure/gap.ts';
import type { GapHalf } from '../measure/gap-halves.ts';
import { formatLength } from '../pattern/format-length.ts';
import { sideOf } from '../pattern/look-up.ts';
import type { Side } from '../pattern/panel.ts';
import type { Units } from '../pattern/pattern.ts';
import { neededLines } from './gap-needs.ts';
import { BODY, GAP, REDUCTION } from './gap-options.ts';
import { wantedGaps, wantedOfSide } from './wanted-gaps.ts';

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
    'Where the halves of a body differ, give left and right (in the file, or as left:right): each side is told by itself, and --side looks at one, with half of the reduction and of the gap.',
    `Warns where a reduction is over a tenth of the body. ${LACING_CAUTION}`,
  ],
  sample: [
    'body.json:',
    '  { "name": "Ada",',
    '    "levels": {',
    '      "bust": "36in",',
    '      "waist": { "girth": "28in", "reduction": "2in", "gap": "2in" },',
    '      "hip": { "left": "19in", "right": "19 1/2in" } } }',
  ],
  declare: (commander) =>
    commander
      .option(...BODY)
      .option(...REDUCTION)
      .option(...GAP),
  run: async (options, job) => {
    const { sheet, units, findings } = await readSheet(job);
    const { wanted, findings: skipped } = await wantedGaps(options, sheet.pattern, job);
    const side = sideOf(sheet.pattern);
    const report = measureGap(sheet.pattern, wantedOfSide(wanted, side));
    const says = report.rows.map((row, at) => ({
      level: wanted[at]!.level,
      says: ['lacing gap', formatLength(row.predictedGap, units)],
    }));
    return {
      sheet,
      drawn: recordChange(
        sheet,
        drawMeasures(sheet.pattern, says, units),
        `${job.canonical({ ...options, ...flagsOf(wanted) })} --through`,
      ),
      report: reportOf(report, units, side),
      findings: [...findings, ...skipped, ...report.findings],
    };
  },
});

/** A length as it can be typed, to 3 decimals. */
const typable = (mm: number): string => `${Math.round(mm * 1000) / 1000}mm`;

/** The flags that say the same as a body file and flags together. */
const flagsOf = (wanted: readonly WantedGap[]): Record<string, string> => {
  const list = (length: (row: WantedGap) => string): string =>
    wanted.map((row) => `${row.level.text}=${length(row)}`).join(',');
  return {
    body: list(({ body, halves }) => (halves ? `${typable(halves.left)}:${typable(halves.right)}` : typable(body))),
    reduction: list(({ reduction }) => typable(reduction)),
    gap: list(({ gap: opening }) => typable(opening)),
  };
};

const reportOf = ({ rows, evenness, shape, overTenth }: GapReport, units: Units, side: Side | undefined): Report => {
  const table = tableText(
    [
      `in ${units === 'in' ? 'inches' : 'mm'}`,
      side === undefined ? 'body' : `${side} half`,
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
  return {
    text: () => `${table}\n${halvesTable(rows, units)}${even}`,
    last: () => neededLines(rows, units, side),
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
        ...(row.halves.length === 0 ? {} : { halves: row.halves.map(halfJson) }),
      })),
      evenness_mm: evenness,
      shape,
      over_tenth: overTenth,
    }),
  };
};

/** Left and right by themselves; the part of the gap is from the laced edge to the centre back of the body. */
const halvesTable = (rows: GapReport['rows'], units: Units): string => {
  const halves = rows.flatMap(({ level, halves: both }) => both.map((half) => ({ level, ...half })));
  if (halves.length === 0) return '';
  const head = ['each half', 'body', 'pattern', 'part of the gap', 'needs'];
  const figures = halves.map(({ level, side, body, pattern, fromCentre, needs: mm }) => [
    `${level}, ${side}`,
    figure(body, units),
    figure(pattern, units),
    figure(fromCentre, units),
    signedFigure(mm, units),
  ]);
  return `${tableText(head, figures)}\n`;
};

const halfJson = ({ side, body, pattern, fromCentre, needs: mm }: GapHalf): Record<string, unknown> => ({
  side,
  body_mm: body,
  pattern_mm: pattern,
  edge_to_centre_back_mm: fromCentre,
  needs_mm: mm,
});
