import { crossHorizontal } from '../geometry/intersect.ts';
import { isInside } from '../geometry/area.ts';
import { point } from '../geometry/point.ts';
import { roundNumber } from '../geometry/round-path.ts';
import type { Path } from '../geometry/path.ts';
import { chordAt } from '../pattern/chord.ts';
import type { Finding } from '../pattern/finding.ts';
import { outlineOf } from '../pattern/outline.ts';
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
    const chord = chordAt(panel, y);
    if (chord !== undefined && chord.toX > chord.fromX) {
      return [{ name, y, fromX: roundNumber(chord.fromX), toX: roundNumber(chord.toX) }];
    }
    const span = widestSpan(outlineOf(panel), y);
    if (span === undefined) {
      findings.push({
        weight: 'warning',
        kind: 'level-off-panel',
        where,
        message: `${name} lies above or below the panel and is left out there`,
      });
      return [];
    }
    findings.push({
      weight: 'warning',
      kind: 'level-meets-no-seam',
      where,
      message: `${name} does not reach both seams of the panel: it meets the top or bottom edge`,
      cure: 'girth cannot be measured there; choose a level that crosses both seams, or check the corners',
    });
    return [{ name, y, fromX: roundNumber(span.fromX), toX: roundNumber(span.toX) }];
  });
  return { levels: levels.toSorted((a, b) => a.y - b.y), findings };
};

/** The widest part of a horizontal line inside an outline. */
const widestSpan = (outline: Path, y: number): { fromX: number; toX: number } | undefined => {
  const xs = crossHorizontal(outline, y)
    .map(({ point: p }) => p.x)
    .toSorted((a, b) => a - b);
  const spans = xs
    .slice(1)
    .map((toX, at) => ({ fromX: xs[at]!, toX }))
    .filter(({ fromX, toX }) => isInside(outline, point((fromX + toX) / 2, y)));
  return spans.toSorted((a, b) => b.toX - b.fromX - (a.toX - a.fromX))[0];
};
