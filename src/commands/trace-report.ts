import type { Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { figure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import { wrapWords } from '../cli/wrap-words.ts';
import { pathBox } from '../geometry/box.ts';
import { degreesOf } from '../geometry/degrees.ts';
import type { Units } from '../pattern/pattern.ts';
import { scaleWords } from '../scan/scale/scale-words.ts';
import type { NamedPanels } from './name-traced.ts';
import type { ScanTraced } from './trace-scans.ts';

/** What a scan shows, how its scale was found, and each panel with its marks. */
export const traceReport = (scans: readonly ScanTraced[], { panels, drawn }: NamedPanels, units: Units): Report => {
  const rows = drawn.map((one, at) => {
    const { outline, spread, bridged, corners } = panels[at]!;
    const { minX, minY, maxX, maxY } = pathBox(outline);
    return {
      panel: one.id,
      width: maxX - minX,
      height: maxY - minY,
      corners: corners.length,
      notches: one.notches.length,
      lines: one.levels.map(({ name }) => name),
      grain: one.grain.length > 0,
      spread,
      bridged,
    };
  });
  const table = tableText(
    [`in ${units}`, 'wide', 'high', 'corners', 'notches', 'grain', 'lines across'],
    rows.map((row) => [
      row.panel,
      figure(row.width, units),
      figure(row.height, units),
      String(row.corners),
      String(row.notches),
      row.grain ? 'yes' : 'no',
      row.lines.join(', ') || 'none',
    ]),
  );
  const worst = Math.max(...rows.map(({ spread }) => spread));
  return {
    text: () => `${scans.map(scanLines).join('')}\n${table}`,
    last: () =>
      `${countOf(rows.length, 'panel')} traced; the outlines keep within ${upTo(worst)} mm of ${followed(scans)} on average. label comes next.`,
    json: () => ({
      scans: scans.map(({ names, traced: { kind, scale }, misfit }) => ({
        scans: names,
        kind,
        scale: {
          from: scale.how,
          dpi_x: scale.dpi.x,
          dpi_y: scale.dpi.y,
          turn_degrees: degreesOf(scale.turn),
          shear_degrees: degreesOf(scale.shear),
          ...(scale.misfit === undefined ? {} : { misfit_mm: scale.misfit }),
          ...(scale.doubt === undefined ? {} : { doubt_mm_in_100: scale.doubt }),
        },
        ...(misfit === undefined ? {} : { join_misfit_mm: misfit.rms, join_worst_mm: misfit.worst }),
      })),
      panels: rows.map((row) => ({
        panel: row.panel,
        width_mm: row.width,
        height_mm: row.height,
        corners: row.corners,
        notches: row.notches,
        levels: row.lines,
        grain: row.grain,
        spread_mm: row.spread,
        bridged_mm: row.bridged,
      })),
    }),
  };
};

/** What an outline follows, in a maker's words. */
const followed = (scans: readonly ScanTraced[]): string => {
  const words = { line: 'the middle of their ink', cutout: "the paper's edge" };
  return [...new Set(scans.map(({ traced }) => words[traced.kind]))].join(' or ');
};

/** Rounded up, so that it is never called nothing. */
const upTo = (mm: number): string => Math.max(0.001, Math.ceil(mm * 1000) / 1000).toFixed(3);

const scanLines = ({ names, traced: { kind, scale }, misfit }: ScanTraced): string => {
  const shows = kind === 'line' ? 'outlines printed on paper' : 'pieces cut out of paper';
  const joined = misfit
    ? `joined: what both show lies ${misfit.rms.toFixed(3)} mm apart on average, ${misfit.worst.toFixed(3)} mm at worst\n`
    : '';
  return `${names.join(' + ')}: ${shows}\n${joined}${wrapWords(scaleWords(scale), 80).join('\n')}\n`;
};
