import { inverse, type Matrix } from '../geometry/matrix.ts';
import { distance } from '../geometry/point.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Candidate } from './corner-candidates.ts';
import type { CornerName } from './label-answers.ts';

/** A word about a corner that its two edges were run on to. */
export const runFinding = (corner: Candidate, name: CornerName, panel: string): Finding[] =>
  corner.run === 'none'
    ? []
    : [
        {
          weight: 'note',
          kind: 'corner-run-on',
          where: `panel ${panel}, ${name}`,
          message: `the corner is ${corner.run}: its two edges were run on to where they meet`,
          cure: `if that is the panel's own shape, place the corner: --corner ${panel}=${name}:120mm,45mm`,
        },
      ];

/** A second turn that could be the corner, with the answer that takes it; `hung` leads from the drawing to the outline. */
export const doubtFinding = (
  rival: Candidate,
  chosen: Candidate,
  name: CornerName,
  panel: string,
  hung: Matrix,
): Finding => ({
  weight: 'warning',
  kind: 'corner-doubtful',
  where: `panel ${panel}, ${name}`,
  message: `two turns could be this corner, ${distance(rival.at, chosen.at).toFixed(1)} mm apart; taken ${placeOf(chosen, hung)}`,
  cure: `if wrong: --corner ${panel}=${name}:${placeOf(rival, hung)}`,
});

/** As `--corner` takes it, on the drawing. */
const placeOf = ({ at }: Candidate, hung: Matrix): string => {
  const { x, y } = transformPoint(at, inverse(hung));
  return `${tenth(x)}mm,${tenth(y)}mm`;
};

/** A joint is found again from there, as a place within a millimetre of one is that joint. */
const tenth = (value: number): number => Math.round(value * 10) / 10 + 0;
