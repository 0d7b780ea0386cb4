import type { Outcome } from '../cli/command.ts';
import type { Job } from '../cli/job.ts';
import { wholeSheet } from '../cli/one-side.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { pathBox } from '../geometry/box.ts';
import { gap, type GapReport } from '../measure/gap.ts';
import { levelY } from '../pattern/level-y.ts';
import { sideOf, sidesOf, waistOf } from '../pattern/look-up.ts';
import type { Edge, Panel, Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import type { BackSpan, GirthPlotRow } from '../picture/girth-plot-row.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import { neededLines } from './gap-needs.ts';
import { wantedGaps, wantedOfSide, type GapOptions } from './wanted-gaps.ts';

/** Body, wanted and pattern girth by level, and the laced back: what gap foretells, as a picture. */
export const girthPlot = async (options: GapOptions, job: Job): Promise<Outcome> => {
  const { sheet, units, findings } = await readSheet(job);
  const { pattern } = sheet;
  const { wanted, names, findings: skipped } = await wantedGaps(options, pattern, job);
  const side = sideOf(pattern);
  const report = gap(pattern, wantedOfSide(wanted, side));
  const hash = hashGeometry(wholeSheet(sheet).pattern);
  return {
    scene: async () => {
      const { girthPlotScene } = await import('../picture/girth-plot.ts');
      const first = pattern.panels.find((panel) => panel.gusset === undefined)!;
      const heights = wanted.map(({ level }) => levelY(first, level) - (waistOf(first) ?? 0));
      return girthPlotScene(plotRows(report.rows, heights, side), {
        title: pattern.name,
        facts: [
          ...(names.length === 0 ? [] : [`on ${names.join(', ')}`]),
          ...(side === undefined ? [] : [`${side} half`]),
          `version ${hash.slice(0, 8)}`,
        ],
        units,
        ...(side === undefined ? {} : { side }),
        spans: { left: lacedSpan(pattern, 'left'), right: lacedSpan(pattern, 'right') },
        overTenth: report.overTenth,
      });
    },
    report: {
      text: () => '',
      last: () => neededLines(report.rows, units, side),
      json: () => ({
        name: pattern.name,
        levels: report.rows.map((row) => ({
          level: row.level,
          body_mm: row.body,
          wanted_girth_mm: row.wantedGirth,
          pattern_girth_mm: row.patternGirth,
          predicted_gap_mm: row.predictedGap,
        })),
        hash,
      }),
    },
    findings: [...findings, ...skipped, ...report.findings],
  };
};

const plotRows = (rows: GapReport['rows'], heights: readonly number[], side: Side | undefined): GirthPlotRow[] =>
  rows.map((row, at) => ({
    level: row.level,
    y: heights[at]!,
    body: row.body,
    wanted: row.wantedGirth,
    pattern: row.patternGirth,
    needs: row.needs,
    gap: row.predictedGap,
    gapWanted: row.gapWanted,
    fromCentre: fromCentre(row, side),
  }));

/** Each edge where the body's halves say it stands; else the gap lies in the middle. */
const fromCentre = ({ halves, predictedGap }: GapReport['rows'][number], side: Side | undefined) => {
  if (side !== undefined) return { [side]: predictedGap };
  const of = (each: Side): number => halves.find((half) => half.side === each)?.fromCentre ?? predictedGap / 2;
  return { left: of('left'), right: of('right') };
};

/** The seam that is laced, where a maker has not called it otherwise. */
const LACED = 'cb';

const lacedEdge = ({ edges }: Panel): Edge | undefined => edges.find(({ name }) => name === LACED);

/** How far the centre back edge of a side runs, below the waist: `cb`, or else the last edge towards the back. */
const lacedSpan = ({ panels }: Pattern, side: Side): BackSpan => {
  const own = panels.filter((panel) => panel.gusset === undefined && (panel.side ?? side) === side);
  const candidates = own.length > 0 ? own : panels;
  const panel = candidates.find(lacedEdge) ?? candidates.at(-1)!;
  const { minY, maxY } = pathBox((lacedEdge(panel) ?? sidesOf(panel)!.back).path);
  const waist = waistOf(panel) ?? 0;
  return { top: minY - waist, bottom: maxY - waist };
};
