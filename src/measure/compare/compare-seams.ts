import { pathLength } from '../../geometry/arc-length.ts';
import { seamWords, sewnSeams, type SeamEdge, type SewnSeam } from '../../pattern/look-up.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import { differenceAlong, partsOf, seamWalk, waistAlong, type SeamPart } from '../../pattern/seam-walk.ts';
import type { SeamComparison, SeamEdgeLengths } from './comparison.ts';

type Lengths = Readonly<Record<SeamPart, number | undefined>>;

const NONE: Lengths = { whole: undefined, above: undefined, below: undefined };

const lengthsOf = (seamEdge: SeamEdge | undefined): Lengths => {
  if (seamEdge === undefined) return NONE;
  const whole = pathLength(seamEdge.edge.path);
  const waist = waistAlong(seamEdge);
  if (waist === undefined) return { ...NONE, whole };
  const [above, below] = seamEdge.side === 'back' ? [waist, whole - waist] : [whole - waist, waist];
  return { whole, above, below };
};

const edgeOn = (seam: SewnSeam | undefined, panel: string): SeamEdge | undefined =>
  seam?.edges.find((edge) => edge.panel.name === panel);

const edgeLengths = (was: SewnSeam | undefined, is: SewnSeam | undefined): SeamEdgeLengths[] => {
  const panels = new Set([...(is?.edges ?? []), ...(was?.edges ?? [])].map(({ panel }) => panel.name));
  return [...panels].map((panel) => {
    const [before, after] = [lengthsOf(edgeOn(was, panel)), lengthsOf(edgeOn(is, panel))];
    const both = (part: SeamPart) => ({ before: before[part], after: after[part] });
    return { panel, whole: both('whole'), above: both('above'), below: both('below') };
  });
};

/** By how much the first edge is longer than the second along each part that either version compares. */
const differencesOf = (was: SewnSeam | undefined, is: SewnSeam | undefined): SeamComparison['differences'] => {
  const [before, after] = [was, is].map((seam) => (seam === undefined ? undefined : seamWalk(seam)));
  const parts = (['above', 'below', 'whole'] as const).filter((part) =>
    [before, after].some((walk) => walk !== undefined && partsOf(walk).includes(part)),
  );
  const along = (walk: typeof before, part: SeamPart): number | undefined =>
    walk !== undefined && partsOf(walk).includes(part) ? differenceAlong(walk, part) : undefined;
  return parts.map((part) => ({ part, before: along(before, part), after: along(after, part) }));
};

/** Every seam that either pattern has, in the order of the after one, measured along its edges in both. */
export const compareSeams = (before: Pattern, after: Pattern): SeamComparison[] => {
  const [old, now] = [before, after].map(
    (pattern) => new Map(sewnSeams(pattern).map((seam) => [seamWords(seam), seam])),
  );
  return [...new Set([...now!.keys(), ...old!.keys()])].map((words) => {
    const [was, is] = [old!.get(words), now!.get(words)];
    const { name, side } = (is ?? was)!;
    return {
      seam: name,
      ...(side === undefined ? {} : { side }),
      edges: edgeLengths(was, is),
      differences: differencesOf(was, is),
    };
  });
};
