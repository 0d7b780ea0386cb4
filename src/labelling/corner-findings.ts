import { inverse, type Matrix } from '../geometry/matrix.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import type { Path } from '../geometry/path.ts';
import { distance } from '../geometry/point.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import type { Finding } from '../pattern/finding.ts';
import type { Candidate } from './corner-candidates.ts';
import type { CornerName } from './label-answers.ts';

/** A word about a corner that its two edges were run on to. */
export const runFinding = (
  corner: Candidate,
  name: CornerName,
  panel: string,
  onDrawing: (corner: Candidate) => string,
): Finding[] =>
  corner.run === 'none'
    ? []
    : [
        {
          weight: 'note',
          kind: 'corner-run-on',
          where: `panel ${panel}, ${name}`,
          message: `the corner is ${corner.run}: its two edges were run on to where they meet`,
          cure: `if that is the panel's own shape, place the corner: --corner ${panel}=${name}:${onDrawing(corner)}`,
        },
      ];

/** A second turn that could be the corner, with the answer that takes it. */
export const doubtFinding = (
  rival: Candidate,
  chosen: Candidate,
  name: CornerName,
  panel: string,
  onDrawing: (corner: Candidate) => string,
): Finding => ({
  weight: 'warning',
  kind: 'corner-doubtful',
  where: `panel ${panel}, ${name}`,
  message: `two turns could be this corner, ${distance(rival.at, chosen.at).toFixed(1)} mm apart; taken ${onDrawing(chosen)}`,
  cure: `if wrong: --corner ${panel}=${name}:${onDrawing(rival)}`,
});

/**
 * A corner's place on the outline as `--corner` takes it, in millimetres of the drawing, from which `hung` leads to the outline; of a
 * bevelled or rounded corner the place nearest to where its edges meet.
 */
export const typedPlace = (outline: Path, { at, run }: Candidate, hung: Matrix): string => {
  const { x, y } = transformPoint(run === 'none' ? at : nearestPoint(outline, at).point, inverse(hung));
  return `${tenth(x)}mm,${tenth(y)}mm`;
};

/** A joint is found again from there, as a place within a millimetre of one is that joint. */
const tenth = (value: number): number => Math.round(value * 10) / 10 + 0;
