/** A pattern as plain facts, one after another in an order that never changes: what two versions are compared by. */

import { lengthTo, pathLength } from '../geometry/arc-length.ts';
import { tangentOn } from '../geometry/evaluate.ts';
import { degreesOf } from '../geometry/degrees.ts';
import { crossHorizontal } from '../geometry/intersect.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { turn } from '../geometry/vector.ts';
import { chordAt } from '../pattern/chord.ts';
import { girthAt, levelCalled } from '../pattern/girth-at.ts';
import { levelNames, seamWords, sewnSeams, type SewnSeam, waistOf } from '../pattern/look-up.ts';
import { openingLength } from '../pattern/opening.ts';
import type { Edge, Notch, Panel, Slit } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { widthAt } from '../pattern/width-at.ts';

/** One fact: `of` is the thing, `what` the property; a length in millimetres, an angle in degrees, a number or a word. */
export interface Fact {
  readonly of: string;
  readonly what: string;
  readonly value:
    { readonly mm: number } | { readonly degrees: number } | { readonly count: number } | { readonly word: string };
}

/** Which of how many panels stands alone, where a pattern is kept a panel a file. */
interface Part {
  readonly number: number;
  readonly of: number;
}

/**
 * Every fact of the pattern: its panels from centre front to centre back, then its seams, then its levels from the highest down. Of a
 * `part` of one nothing is said that takes all its panels.
 */
export const describePattern = (pattern: Pattern, part?: Part): Fact[] => [
  { of: 'pattern', what: 'name', value: { word: pattern.name } },
  { of: 'pattern', what: 'pieces', value: { word: pattern.pieces } },
  part === undefined
    ? { of: 'pattern', what: 'panels', value: { count: pattern.panels.length } }
    : { of: 'pattern', what: 'panel', value: { word: `${part.number} of ${part.of}` } },
  ...pattern.panels.flatMap(panelFacts),
  ...(part === undefined ? [...sewnSeams(pattern).flatMap(seamFacts), ...girthFacts(pattern)] : []),
];

const seamFacts = (seam: SewnSeam): Fact[] => {
  const [one, other] = seam.edges.map(({ edge }) => pathLength(edge.path));
  if (one === undefined || other === undefined) return [];
  return [{ of: `seam ${seamWords(seam)}`, what: 'difference of its edges', value: { mm: Math.abs(one - other) } }];
};

const girthFacts = (pattern: Pattern): Fact[] =>
  levelNames(pattern).flatMap((name): Fact[] => {
    if (!pattern.panels.every((panel) => widthAt(pattern, panel, levelCalled(name)) !== undefined)) return [];
    const what = pattern.panels.some(({ line }) => line === 'cutting') ? 'round all cutting lines' : 'girth';
    return [{ of: `level ${name}`, what, value: { mm: girthAt(pattern, levelCalled(name)).girth } }];
  });

const panelFacts = (panel: Panel): Fact[] => {
  const of = `panel ${panel.name}`;
  const waist = waistOf(panel);
  return [
    { of, what: 'line', value: { word: panel.line } },
    ...panel.edges.flatMap((edge) => edgeFacts(of, edge)),
    ...panel.edges.map((edge, at): Fact => {
      const next = panel.edges[(at + 1) % panel.edges.length]!;
      return { of: `${of}, corner ${edge.name} to ${next.name}`, what: 'angle', value: { degrees: angle(edge, next) } };
    }),
    ...panel.levels.flatMap(({ name, y }): Fact[] => {
      const width = chordAt(panel, y)?.width;
      return [
        ...(waist === undefined || y === waist
          ? []
          : [
              {
                of: `${of}, level ${name}`,
                what: y < waist ? 'above the waist' : 'below the waist',
                value: { mm: Math.abs(waist - y) },
              },
            ]),
        ...(width === undefined ? [] : [{ of: `${of}, level ${name}`, what: 'width', value: { mm: width } }]),
      ];
    }),
    ...panel.notches.flatMap((notch) => notchFacts(of, panel, notch, waist)),
    ...(panel.slits ?? []).flatMap((slit) => slitFacts(of, panel, slit, waist)),
    ...(panel.grain === undefined
      ? []
      : [{ of: `${of}, grain`, what: 'leans', value: { degrees: leanOf(panel.grain) } } satisfies Fact]),
    ...(panel.bones.length === 0 ? [] : [{ of, what: 'bones', value: { count: panel.bones.length } } satisfies Fact]),
  ];
};

const edgeFacts = (of: string, { name, path, allowance, corners }: Edge): Fact[] => [
  { of: `${of}, edge ${name}`, what: 'length', value: { mm: pathLength(path) } },
  ...(allowance === undefined
    ? []
    : [{ of: `${of}, edge ${name}`, what: 'allowance', value: { mm: allowance } } satisfies Fact]),
  ...(corners === undefined
    ? []
    : [{ of: `${of}, edge ${name}`, what: 'corners', value: { word: corners } } satisfies Fact]),
];

const slitFacts = (of: string, panel: Panel, slit: Slit, waist: number | undefined): Fact[] => {
  const thing = `${of}, opening for ${slit.gusset}`;
  const length = openingLength(panel, slit);
  const below = waist === undefined ? undefined : slit.at.y - waist;
  return [
    ...(slit.edge === undefined ? [] : [{ of: thing, what: 'on edge', value: { word: slit.edge } } satisfies Fact]),
    ...(below === undefined
      ? []
      : [{ of: thing, what: `begins ${below < 0 ? 'above' : 'below'} the waist`, value: { mm: Math.abs(below) } }]),
    ...(length === undefined ? [] : [{ of: thing, what: 'length', value: { mm: length } } satisfies Fact]),
  ];
};

/** The angle inside the panel where one edge ends and the next begins, in degrees: 90 at a square corner. */
const angle = (edge: Edge, next: Edge): number => {
  const turned = turn(tangentOn(edge.path.segments.at(-1)!, 1), tangentOn(next.path.segments[0]!, 0));
  return 180 - degreesOf(turned);
};

/** How far a grainline is from upright, in degrees, positive where its upper end leans to the right. */
const leanOf = ({ from, to }: NonNullable<Panel['grain']>): number => {
  const [low, high] = from.y > to.y ? [from, to] : [to, from];
  return degreesOf(Math.atan2(high.x - low.x, low.y - high.y));
};

const notchFacts = (of: string, panel: Panel, notch: Notch, waist: number | undefined): Fact[] => {
  const edge = panel.edges.find(({ name }) => name === notch.edge);
  if (edge === undefined) return [];
  const along = lengthTo(edge.path, nearestPoint(edge.path, notch.at).location);
  const crossing = waist === undefined ? undefined : crossHorizontal(edge.path, waist)[0];
  const thing = `${of}, notch on ${notch.edge}`;
  if (crossing === undefined) return [{ of: thing, what: 'along the edge', value: { mm: along } }];
  const away = Math.abs(along - lengthTo(edge.path, crossing.location));
  const side = notch.at.y <= waist! ? 'above' : 'below';
  return [{ of: thing, what: `along the seam, ${side} the waist`, value: { mm: away } }];
};
