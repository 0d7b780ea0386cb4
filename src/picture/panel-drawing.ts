import { crossHorizontal } from '../geometry/intersect.ts';
import type { Matrix } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import { movePoint, type Point } from '../geometry/point.ts';
import { pointsPath } from '../geometry/points-path.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import { leftNormal, plus, scaled, unit, vectorTo } from '../geometry/vector.ts';
import type { LineStyle } from '../ink/line-style.ts';
import type { Mark, Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { outlineOf } from '../pattern/outline.ts';
import { pathBox } from '../geometry/box.ts';
import type { Panel } from '../pattern/panel.ts';
import { BONE, CUTTING, GRAIN, LEVEL, MARK, OUTLINE, SMALLEST_TYPE, TYPE, WAIST } from './hand.ts';
import { centred, straight, UPWARDS } from './marks.ts';

/** Of an arrowhead on the picture, in millimetres. */
const ARROW = 2.2;

/** A panel's lines at its place on the picture; words are left to whoever lays them out. */
export const panelDrawing = (panel: Panel, place: Matrix): Mark[] => {
  const at = (point: Point): Point => transformPoint(point, place);
  const stroke = (path: Path, style: LineStyle, of: string): Mark => ({
    kind: 'stroke',
    path: transformPath(path, place),
    style,
    of,
  });
  const { name, slits = [] } = panel;
  return [
    ...(panel.cutting ? [stroke(panel.cutting, CUTTING, `${name} cutting line`)] : []),
    ...panel.levels.map((level) => {
      const [from, to] = [
        { x: level.fromX, y: level.y },
        { x: level.toX, y: level.y },
      ];
      return straight(at(from), at(to), level.name === 'waist' ? WAIST : LEVEL, `${name} ${level.name}`);
    }),
    ...(panel.grain ? grainLine(at(panel.grain.from), at(panel.grain.to), `${name} grain`) : []),
    ...panel.bones.map((bone) => stroke(bone, BONE, `${name} bone`)),
    ...panel.edges.map((edge) => stroke(edge.path, OUTLINE, `${name} ${edge.name}`)),
    ...panel.notches.map((notch) => straight(at(notch.at), at(notch.inner), MARK, `${name} notch`)),
    ...slits.map((slit) => straight(at(slit.at), at(slit.to), MARK, `${name} opening`)),
  ];
};

const grainLine = (from: Point, to: Point, of: string): Mark[] => [
  straight(from, to, GRAIN, of),
  arrowHead(from, to),
  arrowHead(to, from),
];

const arrowHead = (tip: Point, from: Point): Mark => {
  const back = scaled(unit(vectorTo(tip, from)), ARROW);
  const aside = scaled(leftNormal(back), 0.3);
  const barbs = [plus(back, aside), plus(back, scaled(aside, -1))].map((v) => movePoint(tip, v));
  return { kind: 'stroke', path: pointsPath([barbs[0]!, tip, barbs[1]!]), style: GRAIN };
};

/** Left free between a name and the outline on either side. */
const AIR = 1.5;

/** Left free beside a name that runs along the panel, and how high its letters stand on their ground, as a share of their size. */
const [LINE_AIR, LINE_HEIGHT] = [0.8, 1.08] as const;

/**
 * The panel's name in its tallest stretch between two levels, across it where there is room, else along it; `besideGrain` keeps what runs along
 * the panel off a grainline. On a gusset, which is narrow, its ground would hide the outline.
 */
export const panelName = (panel: Panel, place: Matrix, besideGrain = false): Words => {
  const text = panel.name;
  const outline = outlineOf(panel);
  const { minY, maxY } = pathBox(outline);
  const stops = [minY, ...panel.levels.map(({ y }) => y), maxY].toSorted((a, b) => a - b);
  const rooms = stops.slice(1).map((bottom, at) => ({ top: stops[at]!, bottom }));
  const { top, bottom } = rooms.toSorted((a, b) => b.bottom - b.top - (a.bottom - a.top))[0]!;
  const middle = (top + bottom) / 2;
  const xs = crossHorizontal(outline, middle).map(({ point }) => point.x);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const width = wordsWidth(text, TYPE.name, 'bold');
  const across = width <= (right - left) * place.d - 2 * AIR;
  const room = (bottom - top) * place.d - 4 * TYPE.figure;
  const along = Math.max(
    SMALLEST_TYPE,
    Math.min(TYPE.name, (TYPE.name * room) / width, ((right - left) * place.d - 2 * LINE_AIR) / LINE_HEIGHT),
  );
  const size = across ? TYPE.name : along;
  const [from, to] =
    across || !besideGrain ? [left, right] : besideGrainline(panel, [left, right], middle, size / place.d);
  return centred({
    text,
    at: transformPoint({ x: (from + to) / 2, y: middle }, place),
    size,
    weight: 'bold',
    align: 'middle',
    backed: panel.gusset === undefined,
    ...(across ? {} : { angle: UPWARDS }),
  });
};

/** What is free from the outline to the grainline, on its wider side, where letters of that size find room there; else the whole width. */
const besideGrainline = (
  { grain }: Panel,
  [left, right]: readonly [number, number],
  y: number,
  size: number,
): readonly [number, number] => {
  if (grain === undefined || (grain.from.y > y && grain.to.y > y) || (grain.from.y < y && grain.to.y < y)) {
    return [left, right];
  }
  const x = (grain.from.x + grain.to.x) / 2;
  const wider = x - left > right - x ? ([left, x] as const) : ([x, right] as const);
  return wider[1] - wider[0] >= 2 * size ? wider : [left, right];
};
