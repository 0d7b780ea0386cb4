import type { Finding } from '../pattern/finding.ts';
import { seamsOf } from '../pattern/look-up.ts';
import { mateDifferences, mateFindings, MOST_EASED } from '../pattern/mates.ts';
import type { Pattern } from '../pattern/pattern.ts';

/**
 * Seams whose edges differ, seam by seam; but where most differ by far, or a seam called `cf` or `cb` lies at the wrong end of a half
 * pattern, the question whether the names were given in order. Cutting lines are not compared: their allowances may differ.
 */
export const orderFindings = (pattern: Pattern): Finding[] => {
  const seams = seamsOf(pattern);
  const net = pattern.panels.every(({ line }) => line === 'stitching');
  const joined = seams.filter(({ edges }) => edges.length === 2).length;
  const apart = new Set(
    (net ? mateDifferences(seams) : []).filter(({ by }) => by > MOST_EASED).map(({ seam }) => seam),
  );
  const most = apart.size > 1 && apart.size > joined / 2;
  const misplaced = pattern.pieces === 'pairs' ? misplacedEnds(seams.map(({ name }) => name)) : [];
  const mates = net && !most ? mateFindings(pattern) : [];
  const reasons = [
    ...misplaced,
    ...(most ? [`${apart.size} of ${joined} seams have edges of very different lengths`] : []),
  ];
  if (reasons.length === 0) return mates;
  return [
    {
      weight: 'warning',
      kind: 'order-doubtful',
      where: '--panels, --seams',
      message: `${reasons.join(', and ')}: are the names in the right order, from centre front to centre back?`,
      cure: 'name panels and seams from centre front on; where that lies to the right, add --cf right',
    },
    ...mates,
  ];
};

const misplacedEnds = (names: readonly string[]): string[] => [
  ...(names.indexOf('cf') > 0 ? ['seam cf is not named first'] : []),
  ...(names.includes('cb') && names.at(-1) !== 'cb' ? ['seam cb is not named last'] : []),
];
