import { roundNumber } from '../geometry/round-path.ts';
import type { Finding } from '../pattern/finding.ts';
import { levelSpan } from '../pattern/level-span.ts';
import type { Level, Panel } from '../pattern/panel.ts';

/**
 * The levels of a panel, from the highest down, each cut from edge to edge. A level that misses the panel is left out, and one that
 * meets the top or bottom edge instead of a seam is kept with a word about it, as its girth cannot be measured there.
 */
export const placeLevels = (
  panel: Panel,
  heights: ReadonlyMap<string, number>,
): { levels: Level[]; findings: Finding[] } => {
  const findings: Finding[] = [];
  const levels = [...heights].flatMap(([name, height]): Level[] => {
    const y = roundNumber(height);
    const where = `panel ${panel.name}, ${name}`;
    const span = levelSpan(panel, y);
    if (span === undefined) {
      const message = `${name} lies above or below the panel and is left out there`;
      findings.push({ weight: 'warning', kind: 'level-off-panel', where, message });
      return [];
    }
    if (!span.meetsSeams) {
      const message = `${name} does not reach both seams of the panel: it meets the top or bottom edge`;
      const cure = 'girth cannot be measured there; choose a level that crosses both seams, or check the corners';
      findings.push({ weight: 'warning', kind: 'level-meets-no-seam', where, message, cure });
    }
    return [{ name, y, fromX: roundNumber(span.fromX), toX: roundNumber(span.toX) }];
  });
  return { levels: levels.toSorted((a, b) => a.y - b.y), findings };
};
