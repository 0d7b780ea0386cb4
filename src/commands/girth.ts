import { collect } from '../cli/collect.ts';
import { defineCommand, type Report } from '../cli/command.ts';
import { drawMeasures } from '../cli/draw-measures.ts';
import { figure } from '../cli/figure.ts';
import { levelsToMeasure } from '../cli/levels-to-measure.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import { tableText } from '../cli/table-text.ts';
import { girth as measureGirth, type GirthReport } from '../measure/girth.ts';
import { formatLength } from '../pattern/format-length.ts';
import { SIDES, type Side } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';

export const girth = defineCommand({
  name: 'girth',
  summary: 'round the body at every level, panel by panel',
  kind: 'measure',
  examples: [
    { says: 'every named level of a net pattern', line: 'staywright girth net.svg' },
    { says: 'two inches above the waist as well', line: 'staywright girth net.svg --level waist,waist+2in' },
    {
      says: 'measure in the middle of a pipe: the sheet goes on, the report to the screen',
      line: 'staywright take-in net.svg --seam cb --amount 6mm |\n  staywright girth --through > v2.svg',
    },
  ],
  notes: [
    'A width is the straight line along the level between the two stitching lines of a panel; round the body is their sum, twice for a half pattern. Panels that still carry seam allowance are refused.',
  ],
  declare: (commander) =>
    commander.option('--level <levels>', 'levels parted by commas, may be repeated (all)', collect),
  run: async (options, job) => {
    const { sheet, units, findings } = await readSheet(job);
    const { levels, findings: left } = levelsToMeasure(sheet.pattern, options.level);
    const measured = measureGirth(sheet.pattern, levels);
    const command = `${job.canonical(options)} --through`;
    const says = measured.levels.map(({ girth: all }, at) => ({
      level: levels[at]!,
      says: ['round the body', formatLength(all, units)],
    }));
    return {
      sheet,
      drawn: recordChange(sheet, drawMeasures(sheet.pattern, says, units), command),
      report: reportOf(measured, sheet.pattern, units),
      findings: [...findings, ...left],
    };
  },
});

const reportOf = ({ levels }: GirthReport, pattern: Pattern, units: Units): Report => {
  const pairs = pattern.pieces === 'pairs';
  const sumOf = (side: Side | undefined): string[] =>
    levels.map(({ panels }) =>
      figure(
        panels.reduce((sum, { width }, at) => sum + (pattern.panels[at]!.side === side ? width : 0), 0),
        units,
      ),
    );
  const sides = SIDES.filter((side) => pattern.panels.some((panel) => panel.side === side));
  const rows = pattern.panels.map(({ name }, at) => [
    name,
    ...levels.map(({ panels }) => figure(panels[at]!.width, units)),
  ]);
  const whole = ['round the body', ...levels.map((level) => figure(level.girth, units))];
  const sums = [
    ...(pairs ? [['on each half', ...sumOf(undefined)]] : []),
    ...sides.map((side) => [`${side} half`, ...sumOf(side)]),
    ...(sides.length === 1 ? [] : [whole]),
  ];
  return {
    text: () =>
      tableText([`in ${units === 'in' ? 'inches' : 'mm'}`, ...levels.map(({ level }) => level)], [...rows, ...sums]),
    json: () => ({
      levels: levels.map(({ level, girth: all, panels }) => ({
        level,
        girth_mm: all,
        panels: panels.map(({ panel, width }) => ({ panel, width_mm: width })),
      })),
    }),
  };
};
