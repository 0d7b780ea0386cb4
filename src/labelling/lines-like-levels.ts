import { transformPath } from '../geometry/transform-path.ts';
import type { Stroke } from '../pattern/drawing.ts';
import type { Finding } from '../pattern/finding.ts';
import { levelSpan } from '../pattern/level-span.ts';
import type { Panel } from '../pattern/panel.ts';
import { isName } from './check-answers.ts';
import type { HungPanel } from './hang-drawn-panel.ts';
import { insideOf, isStraight, TOUCH } from './sort-strokes.ts';

/** A line that rises by more than this for each millimetre across (5 degrees) is a line of the design rather than a level. */
const MOST_SLOPE = Math.tan((5 * Math.PI) / 180);

/** What drawing programs call a shape to which nobody gave a name. */
const NAMELESS = /^(path|line|polyline|shape|object|g|group|layer|svg|use)[-_]?\d*([-_]\d+)*$/i;

/** Not names of levels, as they are edges of every panel. */
const EDGES: ReadonlySet<string> = new Set(['top', 'bottom']);

interface Crossing {
  readonly stroke: Stroke;
  readonly called: string;
  readonly panels: readonly string[];
  /** What the level would be called. */
  readonly level: string;
}

/**
 * Named lines that run level from seam to seam of a panel but are no level, as nobody said that theirs is a level's name; one word for
 * each such name.
 */
export const linesLikeLevels = (
  strokes: readonly Stroke[],
  hung: readonly HungPanel[],
  panels: readonly Panel[],
): { readonly findings: readonly Finding[]; readonly lines: readonly Stroke[] } => {
  const marks = new Set(
    hung.flatMap(({ strokes: own }) => [
      ...own.levels.map(({ stroke }) => stroke),
      ...own.notches,
      ...(own.grain ? [own.grain] : []),
    ]),
  );
  const crossings = strokes.flatMap((stroke): Crossing[] => {
    const called = stroke.names.find((name) => isName(name) && !NAMELESS.test(name));
    if (called === undefined || marks.has(stroke) || !isStraight(stroke.path)) return [];
    const crossed = hung.filter((panel, at) => crosses(stroke, panel, panels[at]!)).map(({ name }) => name);
    const level = levelIn(called, crossed);
    return crossed.length === 0 || EDGES.has(level) ? [] : [{ stroke, called, panels: crossed, level }];
  });
  const levels = [...new Set(crossings.map(({ level }) => level))];
  const findings = levels.map((level) =>
    finding(
      level,
      crossings.filter((crossing) => crossing.level === level),
    ),
  );
  return { findings, lines: crossings.map(({ stroke }) => stroke) };
};

const crosses = ({ path }: Stroke, hung: HungPanel, panel: Panel): boolean => {
  const inside = insideOf(hung.outline, transformPath(path, hung.matrix));
  if (inside === undefined) return false;
  const across = Math.abs(inside.to.x - inside.from.x);
  if (Math.abs(inside.to.y - inside.from.y) > MOST_SLOPE * across) return false;
  const span = levelSpan(panel, (inside.from.y + inside.to.y) / 2 - hung.heights.get('waist')!);
  return span !== undefined && span.meetsSeams && across >= span.toX - span.fromX - 2 * TOUCH;
};

/** `ribs` of `ribs-front` on the panel front, of `ribs-2` on any; a line across several panels is called by its whole name. */
const levelIn = (called: string, crossed: readonly string[]): string => {
  if (crossed.length !== 1) return called;
  const ending = [`-${crossed[0]!}`, `_${crossed[0]!}`].find((end) => called.toLowerCase().endsWith(end.toLowerCase()));
  const level = ending === undefined ? called.replace(/[-_][^-_]*$/, '') : called.slice(0, -ending.length);
  return level === '' ? called : level;
};

const finding = (level: string, crossings: readonly Crossing[]): Finding => {
  const lines = [...new Set(crossings.map(({ called }) => called))];
  const panels = [...new Set(crossings.flatMap((crossing) => crossing.panels))];
  const cross = lines.length === 1 ? `a line ${lines[0]!} crosses` : `lines ${lines.join(', ')} cross`;
  const crossed = panels.length === 1 ? `panel ${panels[0]!}` : `panels ${panels.join(', ')}`;
  return {
    weight: 'note',
    kind: 'line-like-level',
    where: level,
    message: `${cross} ${crossed} from seam to seam`,
    cure: `if it is a level, add --level ${level}`,
  };
};
