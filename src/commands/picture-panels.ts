import { countOf } from '../cli/count-of.ts';
import type { Outcome } from '../cli/command.ts';
import type { Job } from '../cli/job.ts';
import { wholeSheet } from '../cli/one-side.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { pathLength } from '../geometry/arc-length.ts';
import { girthAt, levelCalled } from '../pattern/girth-at.ts';
import { levelNames, sewnSeams } from '../pattern/look-up.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { widthAt } from '../pattern/width-at.ts';
import { hashGeometry } from '../record/hash-geometry.ts';

/** The panels side by side at the waist line. */
export const panelsPicture = async (job: Job): Promise<Outcome> => {
  const { sheet, units, findings } = await readSheet(job);
  const { pattern } = sheet;
  const hash = hashGeometry(wholeSheet(sheet).pattern);
  return {
    scene: async () => {
      const { panelsScene } = await import('../picture/panels-scene.ts');
      return panelsScene(pattern, { title: pattern.name, hash, units });
    },
    report: {
      text: () => '',
      last: () =>
        `${pattern.name}: ${countOf(pattern.panels.length, 'panel')}, levels ${levelNames(pattern).join(', ') || 'none'}`,
      json: () => ({
        name: pattern.name,
        panels: pattern.panels.length,
        levels: levelsJson(pattern),
        seams: seamsJson(pattern),
        hash,
      }),
    },
    findings,
  };
};

/** The widths that are drawn, and the girth where every panel has one and no allowance is in it. */
const levelsJson = (pattern: Pattern): readonly Record<string, unknown>[] => {
  const isNet = pattern.panels.every(({ line }) => line === 'stitching');
  return levelNames(pattern).map((level) => {
    const widths = pattern.panels.map((panel) => ({
      panel: panel.name,
      width_mm: widthAt(pattern, panel, levelCalled(level)),
    }));
    const told = widths.filter(({ width_mm: width }) => width !== undefined);
    const isWhole = isNet && told.length === widths.length;
    return { level, ...(isWhole ? { girth_mm: girthAt(pattern, levelCalled(level)).girth } : {}), panels: told };
  });
};

const seamsJson = (pattern: Pattern): readonly Record<string, unknown>[] =>
  sewnSeams(pattern).map(({ name, side, edges }) => ({
    seam: name,
    ...(side === undefined ? {} : { side }),
    edges: edges.map(({ panel, edge }) => ({ panel: panel.name, length_mm: pathLength(edge.path) })),
  }));
