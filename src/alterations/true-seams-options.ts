import { StaywrightError } from '../errors.ts';
import { seamNamed, seamWords, sewnSeams, type SewnSeam } from '../pattern/look-up.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import type { SeamWalk } from '../pattern/seam-walk.ts';
import { suggestName } from '../pattern/suggest.ts';

/** The panel whose edge of a seam is right as it is. */
export interface TrustedEdge {
  readonly seam: string;
  readonly panel: string;
}

/** What truing is asked for. */
export interface TrueSeams {
  /** None for all of them. */
  readonly seams: readonly string[];
  readonly keep: readonly TrustedEdge[];
}

/** @throws usage for a seam or panel that is not there, for an edge of a seam that is not trued, and where both edges of a seam are trusted. */
export const checkTrueSeams = (pattern: Pattern, { seams, keep }: TrueSeams): void => {
  for (const name of seams) seamNamed(pattern, name);
  for (const { seam, panel } of keep) {
    if (seams.length > 0 && !seams.includes(seam))
      throw new StaywrightError('usage', `seam ${seam} is not among those to true`, {
        where: `--keep ${seam}:${panel}`,
        hint: 'leave it out, or name the seam with --seam too',
      });
    const panels = seamNamed(pattern, seam).edges.map((edge) => edge.panel.name);
    if (panels.includes(panel)) continue;
    throw new StaywrightError('usage', `seam ${seam} has no edge on ${panel}`, {
      where: `--keep ${seam}:${panel}`,
      hint: suggestName(panel, panels),
    });
  }
  const isKept = ({ name }: SewnSeam, panel: Panel): boolean =>
    keep.some((trusted) => trusted.seam === name && trusted.panel === panel.name);
  const stuck = sewnSeams(pattern).find(
    (seam) => seam.edges.length > 1 && seam.edges.every(({ panel }) => isKept(seam, panel)),
  );
  if (stuck === undefined) return;
  throw new StaywrightError('usage', `nothing of seam ${seamWords(stuck)} could change`, {
    where: '--keep',
    hint: 'trust one of its two edges, or leave the seam out with --seam',
  });
};

/** The parts of what is off that each of the two edges takes upon itself: half each, or all of it beside one that is trusted. */
export const partsTaken = ({ seam, edges }: SeamWalk, { keep }: TrueSeams): readonly [number, number] => {
  const isTrusted = (at: 0 | 1): boolean =>
    keep.some((trusted) => trusted.seam === seam.name && trusted.panel === edges[at].panel.name);
  if (isTrusted(0)) return [0, 1];
  return isTrusted(1) ? [1, 0] : [1 / 2, 1 / 2];
};

/** In an edge that is written anew, what is nearly off is mended too: rounding it must not make it off in a second run. */
export const CAUTION = 2;
