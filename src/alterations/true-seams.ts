/**
 * Truing: the two edges of each seam made equal again, from where they are matched upwards and downwards; then top and bottom edges made
 * smooth across it; then its notches made to meet. Lengths change only by sliding corners along the seams, so that no width changes
 * at any level; smoothing turns edges about their corners, so that no seam changes its length again. So one run leaves nothing to a second.
 */

import { StaywrightError } from '../errors.ts';
import { farthestFrom } from '../geometry/farthest-from.ts';
import type { Finding } from '../pattern/finding.ts';
import { seamWords } from '../pattern/look-up.ts';
import { bendFindings, singleNotches } from '../pattern/meeting-findings.ts';
import type { Edge, Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { CORNER_EDGES, seamWalks, SMOOTH_ACROSS, type CornerEdge, type SeamWalk } from '../pattern/seam-walk.ts';
import { settleMarks } from '../pattern/settle-marks.ts';
import { alterationFindings, alterPanels, isTrouble, type RedrawCutting } from './alter-panels.ts';
import { meetNotches, type MovedNotch } from './truing/meet-notches.ts';
import { seamGrowth, type Growth } from './truing/seam-growth.ts';
import { shapeChange, type ShapeChange } from './shape-change.ts';
import { slideEdge, type EdgeEnds } from './edges/slide-edge.ts';
import { turnedAt, turnsAcross, type EndTurn } from './truing/smooth-across.ts';
import { tidied } from './tidied.ts';
import { checkTrueSeams, partsTaken, type TrueSeams } from './true-seams-options.ts';

/** What one panel's edge of a seam changed. */
interface TruedEdge {
  readonly panel: string;
  readonly growth: Growth;
  readonly notches: readonly MovedNotch[];
}

/** What was done to one seam. */
export interface TruedSeam {
  readonly seam: string;
  /** Where its edges are matched. */
  readonly from: SeamWalk['from'];
  readonly edges: readonly [TruedEdge, TruedEdge];
  /** Top and bottom edges that were turned: what their inside angles summed to over half a turn, in radians. */
  readonly bends: readonly { readonly corner: CornerEdge; readonly before: number; readonly after: number }[];
}

/** A top or bottom edge that was turned at an end or both, and how far from where it was drawn it lies anywhere now, at most. */
interface SmoothedEdge {
  readonly panel: string;
  readonly edge: CornerEdge;
  readonly most: number;
}

export interface TrueChange extends ShapeChange {
  /** Only seams to which anything was done. */
  readonly seams: readonly TruedSeam[];
  readonly smoothed: readonly SmoothedEdge[];
}

export interface TrueOutcome {
  /** The very same pattern where nothing was to be done. */
  readonly pattern: Pattern;
  readonly change: TrueChange;
  readonly findings: readonly Finding[];
}

const refuse = (panel: string, reason: string): StaywrightError =>
  new StaywrightError('impossible', reason, {
    where: `panel ${panel}`,
    hint: 'trust its edge with --keep SEAM:PANEL, or name the other seams with --seam',
  });

/** The walks of the seams to true. */
const walksOf = (pattern: Pattern, what: TrueSeams): readonly SeamWalk[] =>
  seamWalks(pattern).filter(({ seam }) => what.seams.length === 0 || what.seams.includes(seam.name));

/** The panel with its corners slid by what its edges of all seams grow. */
const slid = (panel: Panel, grown: readonly { readonly side: 'front' | 'back'; readonly growth: Growth }[]): Panel => {
  const ends = (corner: CornerEdge): EdgeEnds => ({
    front: grown.find(({ side }) => side === 'front')?.growth[corner] ?? 0,
    back: grown.find(({ side }) => side === 'back')?.growth[corner] ?? 0,
  });
  let now = panel;
  for (const corner of CORNER_EDGES) {
    const { front, back } = ends(corner);
    if (front === 0 && back === 0) continue;
    const done = slideEdge(now, corner, { front, back });
    if (typeof done === 'string') throw refuse(panel.name, done);
    now = done;
  }
  return now;
};

const withPath = (edge: Edge, path: Edge['path']): Edge => {
  const { text: _text, ...kept } = edge;
  return { ...kept, path: tidied(path, edge.path) };
};

/** The panel with ends of its top and bottom turned, their marks with them; an end too short to be turned stays. The cutting line is drawn later. */
const turned = (panel: Panel, turns: readonly EndTurn[]): Panel => {
  let edges = panel.edges;
  for (const turn of turns) {
    edges = edges.map((edge) => {
      const path = edge.name === turn.corner ? turnedAt(edge, turn) : undefined;
      return path ? withPath(edge, path) : edge;
    });
  }
  return edges === panel.edges ? panel : settleMarks(panel, { ...panel, edges }, (uncut) => uncut);
};

const smoothedEdges = (before: Panel, after: Panel): SmoothedEdge[] =>
  CORNER_EDGES.flatMap((corner) => {
    const [was, is] = [before, after].map(({ edges }) => edges.find(({ name }) => name === corner)?.path);
    if (was === undefined || is === undefined || was === is) return [];
    return [{ panel: after.name, edge: corner, most: farthestFrom(was, is) }];
  });

/**
 * Trues seams: each of the two edges takes half of what they differ by, or one of them all of it where the other is trusted. Seams
 * are matched at the waist, or at their end nearest to it. Edges that differ by 0.05 mm at most, angles within 2 degrees, and notches within
 * 0.05 mm are left as they are, byte for byte; angles more than 30 degrees off are points drawn on purpose, left and told. Lengths are
 * equal to LENGTH_TOLERANCE afterwards, redrawn edges fitted to REFIT_TOLERANCE. A second run changes nothing.
 *
 * @throws usage for names that do not fit; input for panels that still carry allowance; impossible where edges differ by more than an
 * inch, or a panel would lose a level or cross itself.
 */
export const trueSeams = (pattern: Pattern, what: TrueSeams, redrawCutting?: RedrawCutting): TrueOutcome => {
  refuseCutting(pattern);
  checkTrueSeams(pattern, what);
  const walks = walksOf(pattern, what);
  const grown = walks.flatMap((walk) =>
    seamGrowth(walk, partsTaken(walk, what), pattern.units).map((growth, at) => ({
      ...walk.edges[at as 0 | 1],
      growth,
    })),
  );
  const growthOf = (panel: Panel) => grown.filter((edge) => edge.panel === panel);
  const lengths: Pattern = { ...pattern, panels: pattern.panels.map((panel) => slid(panel, growthOf(panel))) };

  const drawn = new Set(pattern.panels.flatMap(({ edges }) => edges));
  const turns = walksOf(lengths, what).flatMap((walk) =>
    turnsAcross(walk, partsTaken(walk, what), (edge) => !drawn.has(edge)),
  );
  const shaped = new Map(
    lengths.panels.map((panel, index) => [
      pattern.panels[index]!,
      turned(
        panel,
        turns.filter((turn) => turn.panel === panel),
      ),
    ]),
  );
  const panels = alterPanels(pattern, (panel) => shaped.get(panel)!, redrawCutting);
  if (isTrouble(panels)) throw refuse(panels.panel, panels.reason);

  const settled: Pattern = { ...pattern, panels };
  const moved = walksOf(settled, what).map((walk) =>
    meetNotches(
      walk,
      partsTaken(walk, what),
      walk.edges.some(({ edge }) => !drawn.has(edge)),
    ),
  );
  const trued = withNotches(settled, moved.flat());
  const after = walksOf(trued, what);
  const seams = walks.map((walk, index) =>
    truedSeam(walk, after[index]!, grown.slice(2 * index, 2 * index + 2), moved[index]!),
  );
  const changed = trued.panels.some((panel, index) => panel !== pattern.panels[index]);
  return {
    pattern: changed ? trued : pattern,
    change: {
      ...shapeChange(pattern, trued),
      seams: seams.filter(isChanged),
      smoothed: lengths.panels.flatMap((panel, index) => smoothedEdges(panel, shaped.get(pattern.panels[index]!)!)),
    },
    findings: [
      ...alterationFindings(pattern, trued),
      ...after.flatMap((walk) => [...singleNotches(walk, pattern.units), ...bendFindings(walk, SMOOTH_ACROSS)]),
    ],
  };
};

const withNotches = (pattern: Pattern, moved: readonly MovedNotch[]): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel) => {
    const mine = moved.filter((each) => each.panel === panel);
    if (mine.length === 0) return panel;
    return {
      ...panel,
      notches: panel.notches.map((notch) => mine.find((each) => each.notch === notch)?.moved ?? notch),
    };
  }),
});

const truedSeam = (
  before: SeamWalk,
  after: SeamWalk,
  grown: readonly { readonly growth: Growth }[],
  moved: readonly MovedNotch[],
): TruedSeam => {
  const edge = (at: 0 | 1): TruedEdge => ({
    panel: after.edges[at].panel.name,
    growth: grown[at]!.growth,
    notches: moved.filter(({ panel }) => panel.name === after.edges[at].panel.name),
  });
  const bends = before.corners.map((corner) => ({
    corner,
    before: before.excess[corner],
    after: after.excess[corner],
  }));
  return {
    seam: seamWords(before.seam),
    from: before.from,
    edges: [edge(0), edge(1)],
    bends: bends.filter((bend) => Math.abs(bend.before) > SMOOTH_ACROSS && Math.abs(bend.after) <= SMOOTH_ACROSS),
  };
};

const isChanged = ({ edges, bends }: TruedSeam): boolean =>
  bends.length > 0 ||
  edges.some(({ growth, notches }) => growth.top !== 0 || growth.bottom !== 0 || notches.length > 0);
