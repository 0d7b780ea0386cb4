/** What is drawn on a panel besides its edges, in both versions; the after one is laid on the before one already. */

import { lengthTo } from '../../geometry/arc-length.ts';
import { nearestPoint } from '../../geometry/nearest-point.ts';
import { distance } from '../../geometry/point.ts';
import { findLevel, seamSidesOf, waistOf } from '../../pattern/look-up.ts';
import { openingLength, pointAlong } from '../../pattern/opening.ts';
import { levelCalled } from '../../pattern/girth-at.ts';
import { insideAngle } from '../../pattern/inside-angle.ts';
import { asDrawn } from '../../pattern/mirror-panel.ts';
import { pairNotches } from '../../pattern/pair-notches.ts';
import type { Panel, Slit } from '../../pattern/panel.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import { waistAlong } from '../../pattern/seam-walk.ts';
import { widthAt } from '../../pattern/width-at.ts';
import type { Both, LevelComparison, NotchComparison, PanelComparison, SlitComparison } from './comparison.ts';
import { curvesApart } from './curves-apart.ts';

/** A panel in both versions, each with the pattern that it is of: a gusset is measured beside its neighbours. */
export interface PanelVersions {
  readonly before: { readonly pattern: Pattern; readonly panel: Panel };
  /** As it was drawn, and laid on the before one. */
  readonly after: { readonly pattern: Pattern; readonly panel: Panel; readonly laid: Panel };
}

/** Every level of either version, from the order given. */
export const compareLevels = ({ before, after }: PanelVersions, names: readonly string[]): LevelComparison[] => {
  const waist = waistOf(before.panel) ?? 0;
  const heightOn = (panel: Panel, name: string): number | undefined => {
    const level = findLevel(panel, name);
    return level && waist - level.y;
  };
  return names
    .map((level) => ({
      level,
      height: { before: heightOn(before.panel, level), after: heightOn(after.laid, level) },
      width: {
        before: widthAt(before.pattern, before.panel, levelCalled(level)),
        after: widthAt(after.pattern, after.panel, levelCalled(level)),
      },
    }))
    .filter(({ height }) => height.before !== undefined || height.after !== undefined);
};

const cornersOf = ({ edges }: Panel) =>
  edges.map((edge, at) => {
    const next = edges[(at + 1) % edges.length]!;
    return { edge: edge.name, next: next.name, angle: insideAngle(edge.path, next.path) };
  });

/** Each corner that lies between the same two edges in both versions. */
export const compareCorners = ({ before, after }: PanelVersions): PanelComparison['corners'] => {
  const old = cornersOf(before.panel);
  return cornersOf(after.panel).flatMap(({ edge, next, angle }) => {
    const was = old.find((corner) => corner.edge === edge && corner.next === next);
    return was === undefined ? [] : [{ edge, next, before: was.angle, after: angle }];
  });
};

/** Where the notches of one edge lie along it: upwards from the waist on a seam that crosses it, else from the edge's start. */
const placesOf = (panel: Panel, name: string, fromWaist: boolean): number[] => {
  const edge = panel.edges.find((own) => own.name === name);
  if (edge === undefined) return [];
  const side = seamSidesOf(panel)?.back === edge ? 'back' : 'front';
  const waist = fromWaist ? waistAlong({ panel, edge, side })! : 0;
  const upwards = fromWaist && side === 'back' ? -1 : 1;
  return panel.notches
    .filter((notch) => notch.edge === name)
    .map(({ at }) => (lengthTo(edge.path, nearestPoint(edge.path, at).location) - waist) * upwards);
};

const crossesWaist = (panel: Panel, name: string): boolean => {
  const seams = seamSidesOf(panel);
  const edge = [seams?.front, seams?.back].find((own) => own?.name === name);
  return edge !== undefined && waistAlong({ panel, edge, side: edge === seams!.back ? 'back' : 'front' }) !== undefined;
};

/** The notches of both versions, paired by their places along the edge; one with no other within an inch is only in its own version. */
export const compareNotches = ({ before, after }: PanelVersions): NotchComparison[] =>
  after.panel.edges.flatMap(({ name }) => {
    const fromWaist = [before.panel, after.panel].every((panel) => crossesWaist(panel, name));
    const [was, is] = [before.panel, after.panel].map((panel) => placesOf(panel, name, fromWaist));
    const { pairs, singles } = pairNotches(was!, is!);
    const both: Both[] = [
      ...pairs.map(([one, other]) => ({ before: was![one], after: is![other] })),
      ...singles[0].map((at) => ({ before: was![at], after: undefined })),
      ...singles[1].map((at) => ({ before: undefined, after: is![at] })),
    ];
    return both.map((notch) => ({ edge: name, from: fromWaist ? ('waist' as const) : ('start' as const), ...notch }));
  });

/** How far a grainline leans from upright, in radians, positive where its upper end is to the right as the panel is drawn. */
const leanOf = (panel: Panel): number | undefined => {
  const { grain } = asDrawn(panel);
  if (grain === undefined) return undefined;
  const [low, high] = grain.from.y > grain.to.y ? [grain.from, grain.to] : [grain.to, grain.from];
  return Math.atan2(high.x - low.x, low.y - high.y);
};

export const compareGrain = ({ before, after }: PanelVersions): Both => ({
  before: leanOf(before.panel),
  after: leanOf(after.panel),
});

/** How far bones that are as many moved at most; 0 where there are more or fewer. */
export const bonesApart = ({ before, after }: PanelVersions): number => {
  const [was, is] = [before.panel.bones, after.laid.bones];
  if (was.length !== is.length) return 0;
  return was.reduce((most, bone, at) => Math.max(most, curvesApart(bone, is[at]!).all.distance), 0);
};

const keyOf = ({ gusset, edge }: Slit): string => JSON.stringify([gusset, edge]);

/** Every opening for a gusset that either version has. */
export const compareSlits = ({ before, after }: PanelVersions): SlitComparison[] => {
  const slits = [...(before.panel.slits ?? []), ...(after.panel.slits ?? [])];
  const keys = [...new Set(slits.map(keyOf))];
  const figures = (panel: Panel, key: string) => {
    const slit = panel.slits?.find((own) => keyOf(own) === key);
    if (slit === undefined) return {};
    const along = pointAlong(panel, slit);
    const height = along === undefined ? (waistOf(panel) ?? 0) - slit.at.y : -along;
    return { height, length: openingLength(panel, slit), at: slit.at };
  };
  return keys.map((key) => {
    const { gusset, edge } = slits.find((slit) => keyOf(slit) === key)!;
    const [was, is] = [figures(before.panel, key), figures(after.laid, key)];
    return {
      gusset,
      edge,
      height: { before: was.height, after: is.height },
      length: { before: was.length, after: is.length },
      apart: was.at && is.at ? distance(was.at, is.at) : 0,
    };
  });
};
