import type { Finding } from '../pattern/finding.ts';
import { allGussetFindings } from '../pattern/gusset-findings.ts';
import { seamNamed, seamWords, sewnSeams } from '../pattern/look-up.ts';
import { differenceFinding, differencesOf } from '../pattern/mates.ts';
import { bendFindings, notchesApart, singleNotches } from '../pattern/meeting-findings.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { refuseCutting } from '../pattern/refuse-cutting.ts';
import { SMOOTH_ACROSS, seamWalk, type SeamWalk } from '../pattern/seam-walk.ts';

/** Seams are trued to 1/16 in, rounded up to a tenth of a millimetre: Threads 200 (December 2018). */
export const TRUE_WITHIN = 1.6;

/** A sheet's coordinates are rounded to 0.001 mm; what is off by less than this reads as nothing and may be their sum. */
const LEAST_DIFFERENCE = 0.01;

export interface WalkReport {
  readonly walks: readonly SeamWalk[];
  /** Seams of one edge, an opening or a fold: nothing to walk them along. */
  readonly alone: readonly string[];
  /** Parts of seams whose lengths differ, and, where all seams are walked, gussets that do not fit their openings. */
  readonly lengths: readonly Finding[];
  /** Pairs of notches that do not meet. */
  readonly notches: readonly Finding[];
  /** Peaks and dips of top and bottom edges across seams. */
  readonly bends: readonly Finding[];
  /** What is told but may be meant so: notches without a mate, points drawn on purpose. */
  readonly notes: readonly Finding[];
}

/** What walking a gusset along its opening shows; that one of the two is missing is for a check to say. */
const isMeasured = ({ kind }: Finding): boolean => kind === 'gusset-differs' || kind === 'points-apart';

const isNote = ({ weight }: Finding): boolean => weight === 'note';

/**
 * Walks the two edges of each seam along each other, up and down from the waist: lengths and notches that differ by more than `within`
 * millimetres (0.01 at the least), and top and bottom edges that bend across the seam by more than 2 degrees. `seams` are the names of those to walk, none
 * for all. Lengths to LENGTH_TOLERANCE.
 *
 * @throws input where panels still carry seam allowance; usage for an unknown seam.
 */
export const walk = (pattern: Pattern, seams: readonly string[] = [], within = TRUE_WITHIN): WalkReport => {
  refuseCutting(pattern);
  for (const name of seams) seamNamed(pattern, name);
  const asked = sewnSeams(pattern).filter(({ name }) => seams.length === 0 || seams.includes(name));
  const walks = asked.flatMap((seam) => seamWalk(seam) ?? []);
  const most = Math.max(within, LEAST_DIFFERENCE);
  const bends = walks.flatMap((each) => bendFindings(each, SMOOTH_ACROSS));
  return {
    walks,
    alone: asked.filter(({ edges }) => edges.length === 1 && edges[0]!.panel.gusset === undefined).map(seamWords),
    lengths: [
      ...walks.flatMap((each) =>
        differencesOf(each, most).map((difference) => differenceFinding(difference, pattern.units)),
      ),
      ...(seams.length === 0 ? allGussetFindings(pattern).filter(isMeasured) : []),
    ],
    notches: walks.flatMap((each) => notchesApart(each, most, pattern.units)),
    bends: bends.filter((finding) => !isNote(finding)),
    notes: [...walks.flatMap((each) => singleNotches(each, pattern.units)), ...bends.filter(isNote)],
  };
};
