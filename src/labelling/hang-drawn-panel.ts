import { pathBox } from '../geometry/box.ts';
import type { Matrix } from '../geometry/matrix.ts';
import { pathLength } from '../geometry/arc-length.ts';
import type { Path } from '../geometry/path.ts';
import { reversePath } from '../geometry/reverse-path.ts';
import { transformPath } from '../geometry/transform-path.ts';
import type { Stroke } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import type { LabelAnswers } from './label-answers.ts';
import { hangPanel } from './hang-panel.ts';
import { levelHeights } from './level-heights.ts';
import type { NamedPanel } from './name-outlines.ts';
import { insideOf, sortStrokes, type PanelStrokes } from './sort-strokes.ts';

/** A drawn panel turned as it hangs on its grain, with the heights of its levels; not yet parted into edges. */
export interface HungPanel {
  readonly name: string;
  readonly drawn: NamedPanel;
  readonly strokes: PanelStrokes;
  readonly matrix: Matrix;
  readonly mirrored: boolean;
  /** Clockwise. */
  readonly outline: Path;
  readonly heights: ReadonlyMap<string, number>;
  readonly findings: readonly Finding[];
}

/** A level that rises or falls by more than this across its panel, in millimetres, is spoken of. */
const LEVEL_RISE = 0.5;

export const hangDrawnPanel = (
  drawn: NamedPanel,
  strokes: readonly Stroke[],
  answers: LabelAnswers,
  levelNames: readonly string[],
): HungPanel => {
  const { name, shape } = drawn;
  const own = sortStrokes([shape.path, ...(drawn.other ? [drawn.other.path] : [])], strokes, levelNames);
  const waistAnswer = answers.levels.some(
    (level) => level.name === 'waist' && ('from' in level || level.down[name] !== undefined),
  );
  const waist = waistAnswer ? undefined : longest(own.levels.filter((level) => level.name === 'waist'))?.stroke.path;
  const flipped = answers.flip.includes(name);
  const mirrored = flipped !== (answers.centreFront === 'right');
  const hanging = hangPanel(name, answers.turn[name] ?? 0, mirrored, {
    ...(own.grain ? { grain: own.grain.path } : {}),
    ...(waist ? { waist } : {}),
  });
  const turned = transformPath(shape.path, hanging.matrix);
  const outline = mirrored ? reversePath(turned) : turned;
  const box = pathBox(outline);
  const levels = drawnHeights(name, own, outline, hanging.matrix);
  const known = { panel: name, top: box.minY, bottom: box.maxY, drawn: levels.heights };
  const heights = levelHeights(known, answers.levels);
  const findings = [...hanging.findings, ...levels.findings];
  return { name, drawn, strokes: own, matrix: hanging.matrix, mirrored, outline, heights, findings };
};

const longest = <T extends { readonly stroke: Stroke }>(levels: readonly T[]): T | undefined =>
  levels.toSorted((a, b) => pathLength(b.stroke.path) - pathLength(a.stroke.path))[0];

/** The drawn levels' heights at the middle of the panel, with a word about tilted lines and about two lines of one name. */
const drawnHeights = (
  panel: string,
  strokes: PanelStrokes,
  outline: Path,
  matrix: Matrix,
): { heights: Map<string, number>; findings: Finding[] } => {
  const heights = new Map<string, number>();
  const findings: Finding[] = [];
  const byLength = strokes.levels.toSorted((a, b) => pathLength(b.stroke.path) - pathLength(a.stroke.path));
  for (const { name, stroke } of byLength) {
    const inside = insideOf(outline, transformPath(stroke.path, matrix));
    if (inside === undefined) continue;
    const y = (inside.from.y + inside.to.y) / 2;
    const where = `panel ${panel}, ${name}`;
    const known = heights.get(name);
    if (known !== undefined) {
      if (Math.abs(known - y) > LEVEL_RISE) {
        const message = `two lines are called ${name}, ${Math.abs(known - y).toFixed(1)} mm apart; the longer one is used`;
        findings.push({
          weight: 'warning',
          kind: 'level-drawn-twice',
          where,
          message,
          cure: 'rename or delete the other line',
        });
      }
      continue;
    }
    heights.set(name, y);
    const rise = Math.abs(inside.from.y - inside.to.y);
    if (rise > LEVEL_RISE) {
      const message = `the line rises by ${rise.toFixed(1)} mm across the panel as it hangs; its middle is used`;
      findings.push({
        weight: 'warning',
        kind: 'level-tilted',
        where,
        message,
        cure: 'draw it at right angles to the grain',
      });
    }
  }
  return { heights, findings };
};
