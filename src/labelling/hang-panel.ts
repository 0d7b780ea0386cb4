import { StaywrightError } from '../errors.ts';
import { compose, IDENTITY, rotation, scaling, type Matrix } from '../geometry/matrix.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import { dot, turn, vector, vectorTo, type Vector } from '../geometry/vector.ts';
import type { Finding } from '../pattern/finding.ts';
import { describeDegrees } from './describe-degrees.ts';

/** A tilt below this many radians (0.05 degrees) is left as it is: on a panel of 100 mm it is less than 0.1 mm. */
const LEAST_TILT = (0.05 * Math.PI) / 180;

/** A line tilted by more than this does not say which way to turn. */
const MOST_TILT = Math.PI / 4;

export interface Hanging {
  /** From the drawing to the panel as it hangs, up to a shift. */
  readonly matrix: Matrix;
  readonly mirrored: boolean;
  readonly findings: readonly Finding[];
}

export interface HangingLines {
  readonly grain?: Path;
  readonly waist?: Path;
}

/**
 * How a drawn panel is turned so that it hangs on its grain with centre front to the left: first by the `turned` radians (clockwise)
 * that were asked for, then mirrored if it was drawn so, then until the grainline is vertical or, where none is drawn, the waist
 * line is level. Throws `input` where that line is tilted by more than 45 degrees.
 */
export const hangPanel = (panel: string, turned: number, mirrored: boolean, lines: HangingLines): Hanging => {
  const asked = compose(mirrored ? scaling(-1, 1) : IDENTITY, rotation(turned));
  const drawn = lines.grain ?? lines.waist;
  if (drawn === undefined) return { matrix: asked, mirrored, findings: [] };
  const what = lines.grain ? 'grainline' : 'waist line';
  const target = lines.grain ? vector(0, 1) : vector(1, 0);
  const tilt = turn(towards(directionOf(drawn, asked), target), target);
  if (Math.abs(tilt) > MOST_TILT) {
    throw new StaywrightError(
      'input',
      `the ${what} is ${describeDegrees(tilt)} away from ${lines.grain ? 'vertical' : 'level'}`,
      {
        where: `panel ${panel}`,
        hint: `turn the panel so that it hangs the right way up: --turn ${panel}=90 (degrees, clockwise)`,
      },
    );
  }
  if (Math.abs(tilt) < LEAST_TILT) return { matrix: asked, mirrored, findings: [] };
  const finding: Finding = {
    weight: 'note',
    kind: 'panel-turned',
    where: `panel ${panel}`,
    message: `turned by ${describeDegrees(tilt)} ${tilt > 0 ? 'clockwise' : 'anticlockwise'} so that its ${what} is ${lines.grain ? 'vertical' : 'level'}`,
  };
  return { matrix: compose(rotation(tilt), asked), mirrored, findings: [finding] };
};

const directionOf = (path: Path, matrix: Matrix): Vector =>
  vectorTo(transformPoint(pathStart(path), matrix), transformPoint(pathEnd(path), matrix));

/** The direction or its opposite, whichever is nearer to the target. */
const towards = (direction: Vector, target: Vector): Vector =>
  dot(direction, target) < 0 ? vector(-direction.dx, -direction.dy) : direction;
