import { countOf } from '../cli/count-of.ts';
import { joinBoxes, pathBox } from '../geometry/box.ts';
import type { Line } from '../geometry/segment.ts';
import { transformPath } from '../geometry/transform-path.ts';
import { translation } from '../geometry/matrix.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Traced, TracedPanel } from '../scan/traced.ts';
import type { DrawnPanel } from '../svg/write-drawing.ts';

/** What was traced, with names: `drawn[i]` is `panels[i]` as it is written. */
export interface NamedPanels {
  readonly panels: readonly TracedPanel[];
  readonly drawn: readonly DrawnPanel[];
  readonly findings: readonly Finding[];
}

/** Left free between the panels of one scan and of the next, in millimetres. */
const BETWEEN_SCANS = 20;

/**
 * Panels called `panel-1` and so on through all scans, which stand side by side; the lines right across take `levels` from the top
 * down where there are as many, one alone is the waist, others are called `line-1` and so on.
 */
export const nameTraced = (scans: readonly Traced[], levels: readonly string[] | undefined): NamedPanels => {
  const panels: TracedPanel[] = [];
  const drawn: DrawnPanel[] = [];
  const unnamed = new Map<number, string[]>();
  let right = 0;
  for (const { panels: found } of scans) {
    const box = joinBoxes(found.map(({ outline }) => pathBox(outline)));
    const shift = translation(scans.length > 1 ? right - box.minX : 0, scans.length > 1 ? -box.minY : 0);
    for (const panel of found) {
      const id = `panel-${panels.length + 1}`;
      const { across } = panel.marks;
      const names = levelNames(across.length, levels);
      if (names === undefined) unnamed.set(across.length, [...(unnamed.get(across.length) ?? []), id]);
      const line = (one: Line): Line => transformPath({ segments: [one] }, shift).segments[0] as Line;
      panels.push(panel);
      drawn.push({
        id,
        outlines: [panel.outline, ...panel.within].map((path) => transformPath(path, shift)),
        levels: across.map((one, at) => ({ name: names?.[at] ?? `line-${at + 1}`, line: line(one) })),
        notches: panel.marks.notches.map(line),
        grain: panel.marks.grain.map(line),
        art: panel.marks.art.map((path) => transformPath(path, shift)),
      });
    }
    right += box.maxX - box.minX + BETWEEN_SCANS;
  }
  const findings = [...unnamed].map(([count, ids]) => notNamed(ids, count, levels));
  return { panels, drawn, findings };
};

/** Undefined where nothing says which of the lines is which. */
const levelNames = (count: number, asked: readonly string[] | undefined): readonly string[] | undefined => {
  if (asked === undefined) return count < 2 ? ['waist'] : undefined;
  return asked.length === count ? asked : undefined;
};

const notNamed = (ids: readonly string[], count: number, asked: readonly string[] | undefined): Finding => ({
  weight: 'warning',
  kind: 'lines-not-named',
  where: ids.join(', '),
  message:
    count === 0
      ? 'no line right across was found'
      : `${countOf(count, 'line')} right across${ids.length === 1 ? '' : ' each'}, called line-1 and so on`,
  cure:
    asked === undefined
      ? 'name them from the top down: --level bust,waist'
      : `--level names ${countOf(asked.length, 'line')}: look at the preview, or name them in the drawing`,
});
