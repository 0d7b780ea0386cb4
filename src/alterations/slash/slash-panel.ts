/** One panel slashed: every part moved as one rigid piece, the crossed edges drawn as fair lines again. */

import { IDENTITY } from '../../geometry/matrix.ts';
import { lengthTo } from '../../geometry/arc-length.ts';
import { joinPaths } from '../../geometry/join-paths.ts';
import { pathEnd, type Location, type Path } from '../../geometry/path.ts';
import { reversePath } from '../../geometry/reverse-path.ts';
import { simplifyPath } from '../../geometry/simplify-path.ts';
import { subPath } from '../../geometry/sub-path.ts';
import { REFIT_TOLERANCE } from '../../geometry/tolerance.ts';
import { transformPath } from '../../geometry/transform-path.ts';
import { sidesOf, type PanelSides } from '../../pattern/look-up.ts';
import type { Edge, Panel } from '../../pattern/panel.ts';
import { blendTurn } from './blend-turn.ts';
import { bridgeGaps, isCrowded } from './bridge-gaps.ts';
import type { SlashPlan } from './plan-slash.ts';
import { alongParts, type SlashEnd, type SlashLine } from './slash-lines.ts';
import { moveMarks } from './slash-marks.ts';
import { spreadEvenly } from './spread-evenly.ts';
import { tidied } from '../tidied.ts';
import type { PartMotion } from './turn-parts.ts';

type Place = keyof PanelSides;

/** What the edges of a panel become; places that are absent do not change. */
type NewPaths = Partial<Record<Place, Path>>;

const START: Location = { segment: 0, t: 0 };

const endOf = (path: Path): Location => ({ segment: path.segments.length - 1, t: 1 });

/** An edge cut at the slashes, each piece moved with its part. */
const movedPieces = (path: Path, cuts: readonly Location[], motions: readonly PartMotion[]): Path[] => {
  const places = [START, ...cuts, endOf(path)];
  return motions.map(({ matrix }, part) => {
    const piece = subPath(path, places[part]!, places[part + 1]!);
    return matrix === IDENTITY ? piece : transformPath(piece, matrix);
  });
};

/** Whether an edge has the few nodes that one command may leave: twice those it had and four more. */
const hasFewNodes = (path: Path, before: Path): boolean =>
  path.segments.length + 1 <= 2 * (before.segments.length + 1) + 4;

/** One fair line: rigid pieces bridged over the gaps, or spread evenly where they lie too close or would make too many nodes. */
const faired = (
  path: Path,
  cuts: readonly Location[],
  motions: readonly PartMotion[],
  gap: number,
): Path | undefined => {
  const pieces = movedPieces(path, cuts, motions);
  const bridged = isCrowded(pieces, gap) ? undefined : bridgeGaps(pieces, gap);
  const drawn = bridged && simplifyPath(bridged, REFIT_TOLERANCE);
  if (drawn && hasFewNodes(drawn, path)) return drawn;
  const lengths = cuts.map((cut) => lengthTo(path, cut));
  const even = spreadEvenly(
    path,
    lengths,
    motions.map(({ matrix }) => matrix),
  );
  return even && tidied(even, path);
};

/** Pieces that hang together at their hinges, with a slight corner at each; where that makes too many nodes, one fair line. */
const hinged = (path: Path, cuts: readonly Location[], motions: readonly PartMotion[]): Path | undefined => {
  const cornered = simplifyPath(joinPaths(...movedPieces(path, cuts, motions)), REFIT_TOLERANCE);
  return hasFewNodes(cornered, path) ? cornered : faired(path, cuts, motions, 0);
};

/** The seam beside a level hinge: all beyond the level are the very same segments. */
const turnedSeam = (path: Path, end: SlashEnd, { matrix }: PartMotion, fromEnd: boolean): Path | undefined => {
  if (matrix === IDENTITY) return path;
  const kept = fromEnd ? subPath(path, START, end.location) : subPath(path, end.location, endOf(path));
  const part = fromEnd ? subPath(path, end.location, endOf(path)) : reversePath(subPath(path, START, end.location));
  const turned = blendTurn(part, matrix);
  if (!turned) return undefined;
  const drawn = tidied(turned, part);
  return fromEnd ? joinPaths(kept, drawn) : joinPaths(reversePath(drawn), kept);
};

const unbridged = (plan: SlashPlan, edge: string): string =>
  plan.spread < 0 ? 'would have a part overlapped away' : `would have no fair line along ${edge}`;

const newPaths = (
  sides: PanelSides,
  plan: SlashPlan,
  lines: readonly SlashLine[],
  motions: readonly PartMotion[],
): NewPaths | string => {
  const paths: NewPaths = {};
  const set = (place: Place, path: Path): void => {
    paths[place] = place === 'top' || place === 'back' ? path : reversePath(path);
  };
  const from = alongParts(sides, plan.from);
  const mouths = lines.map(({ mouth }) => mouth.location);
  const opened = faired(from, mouths, motions, plan.spread);
  if (!opened) return unbridged(plan, sides[plan.from].name);
  set(plan.from, opened);
  if (!plan.seamEnds) {
    const opposite = alongParts(sides, plan.opposite);
    const feet = lines.map(({ footOn }) => footOn!);
    const drawn = plan.parallel ? faired(opposite, feet, motions, plan.spread) : hinged(opposite, feet, motions);
    if (!drawn) return unbridged(plan, sides[plan.opposite].name);
    set(plan.opposite, drawn);
  }
  for (const [place, motion, end] of [
    [plan.first, motions[0]!, plan.seamEnds?.[0]],
    [plan.last, motions.at(-1)!, plan.seamEnds?.[1]],
  ] as const) {
    if (motion.matrix === IDENTITY) continue;
    const { path } = sides[place];
    const fromEnd = (place === 'back') === (plan.from === 'bottom');
    const turned = end ? turnedSeam(path, end, motion, fromEnd) : transformPath(path, motion.matrix);
    if (!turned) return `would have a seam ${sides[place].name} that turns back on itself beside the hinge`;
    paths[place] = turned;
  }
  return paths;
};

/** Neighbouring edges end in one point, though their corner was moved by two sums of the same numbers. */
const endToEnd = (edges: readonly Edge[]): Edge[] =>
  edges.map((edge, index) => {
    const end = edges[(index + 1) % edges.length]!.path.segments[0]!.start;
    const own = pathEnd(edge.path);
    if (own.x === end.x && own.y === end.y) return edge;
    const last = edge.path.segments.at(-1)!;
    return { ...edge, path: { segments: [...edge.path.segments.slice(0, -1), { ...last, end }] } };
  });

/** The panel slashed, its seam notches and levels still to be settled where they do not move with a part; or why it cannot be. */
export const slashPanel = (
  panel: Panel,
  plan: SlashPlan,
  lines: readonly SlashLine[],
  motions: readonly PartMotion[],
): Panel | string => {
  const sides = sidesOf(panel)!;
  const paths = newPaths(sides, plan, lines, motions);
  if (typeof paths === 'string') return paths;
  const changed = new Map<Edge, Path>();
  for (const place of ['top', 'back', 'bottom', 'front'] as const) {
    const path = paths[place];
    if (path) changed.set(sides[place], path);
  }
  const edges = panel.edges.map((edge): Edge => {
    const path = changed.get(edge);
    if (!path) return edge;
    const { text: _text, ...kept } = edge;
    return { ...kept, path };
  });
  return moveMarks(panel, { ...panel, edges: endToEnd(edges) }, plan, lines, motions);
};
