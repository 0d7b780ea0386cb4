import { signedArea } from '../geometry/area.ts';
import type { Matrix } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import { WASH } from '../ink/colour.ts';
import type { LineStyle } from '../ink/line-style.ts';
import type { Mark, Words } from '../ink/scene.ts';
import { findLevel } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Panel } from '../pattern/panel.ts';
import { CHANGED, FORMER, LEVEL, MARK, OUTLINE, WAIST } from './hand.ts';
import { straight } from './marks.ts';
import { outlinesOf, type Overlaid } from './overlay-panel.ts';
import { SEEN_APART } from './overlay-stretches.ts';
import { panelName } from './panel-drawing.ts';

/** The ground between the two lines; of a gusset that only one version has, all of it. */
export const overlayGrounds = (panel: Overlaid, place: Matrix): Mark[] => {
  if (panel.found === undefined) {
    const path = transformPath(outlinesOf(panel)[0]!, place);
    return [{ kind: 'area', path, colour: WASH, of: `${panel.name}, only ${panel.after ? 'after' : 'before'}` }];
  }
  return panel.changed.flatMap(({ edge, between }): Mark[] => {
    if (between === undefined) return [];
    return [{ kind: 'area', path: transformPath(between, place), colour: WASH, of: `${panel.name} ${edge}, moved` }];
  });
};

/** The former lines, then over them those of now, then what changed of these. */
export const overlayLines = (panel: Overlaid, place: Matrix): Mark[] => {
  const { name, before, after } = panel;
  const stroke = (path: Path, style: LineStyle, of: string): Mark => ({
    kind: 'stroke',
    path: transformPath(path, place),
    style,
    of,
  });
  const isNew = panel.found === undefined;
  return [
    ...[after ?? before!].flatMap((own) => levelLines(own, place)),
    ...(before ? movedLevels(panel, place) : []),
    ...(before?.edges ?? []).map((edge) => stroke(edge.path, FORMER, `${name} ${edge.name}, before`)),
    ...(after?.edges ?? []).map((edge) => stroke(edge.path, isNew ? CHANGED : OUTLINE, `${name} ${edge.name}, after`)),
    ...panel.changed.map(({ edge, line }) => stroke(line, CHANGED, `${name} ${edge}, changed`)),
    ...(after?.notches ?? []).map(({ at, inner }) =>
      straight(transformPoint(at, place), transformPoint(inner, place), MARK, `${name} notch, after`),
    ),
    ...(after?.slits ?? []).map(({ at, to }) =>
      straight(transformPoint(at, place), transformPoint(to, place), MARK, `${name} opening, after`),
    ),
  ];
};

/** Within the smaller of the two versions, and across it only where there is room in both. */
export const overlayName = ({ before, after }: Overlaid, place: Matrix): Words => {
  const smallestFirst = [after, before]
    .flatMap((panel) => panel ?? [])
    .toSorted((a, b) => signedArea(outlineOf(a)) - signedArea(outlineOf(b)));
  const names = smallestFirst.map((panel) => panelName(panel, place));
  return names.find(({ angle }) => angle !== undefined) ?? names[0]!;
};

const levelLine = ({ name, levels }: Panel, level: string, place: Matrix, style: LineStyle, when: string): Mark[] =>
  levels
    .filter((one) => one.name === level)
    .map(({ y, fromX, toX }) =>
      straight(
        transformPoint({ x: fromX, y }, place),
        transformPoint({ x: toX, y }, place),
        style,
        `${name} ${level}, ${when}`,
      ),
    );

const levelLines = (panel: Panel, place: Matrix): Mark[] =>
  panel.levels.flatMap(({ name }) => levelLine(panel, name, place, name === 'waist' ? WAIST : LEVEL, 'after'));

/** Levels as they lay, where they lie elsewhere now. */
const movedLevels = ({ before, after }: Overlaid, place: Matrix): Mark[] =>
  before!.levels.flatMap(({ name, y }) => {
    const now = after && findLevel(after, name);
    return now && Math.abs(now.y - y) > SEEN_APART ? levelLine(before!, name, place, FORMER, 'before') : [];
  });
