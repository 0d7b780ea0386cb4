import type { Pattern } from '../../src/pattern/pattern.ts';
import { allShapes, mirrored, patternOf, withNotches } from './shaped-panels.ts';

/** Every shape of panel, and each seen from its other side, with a notch on every edge: a pattern of one panel each. */
export const everyWay: readonly { readonly name: string; readonly pattern: Pattern }[] = allShapes
  .flatMap((shape) => [shape(), mirrored(shape())])
  .map((panel, index) => ({
    name: `${panel.name}${index % 2 === 1 ? ', seen from its other side' : ''}`,
    pattern: patternOf(withNotches(panel)),
  }));
