/**
 * Bringing the end of one path and the start of the next to one corner, by cutting off what is too much and by going on straight
 * along the end tangents where there is too little.
 */
import { lengthTo, pathLength } from './arc-length.ts';
import { tangentOn } from './evaluate.ts';
import { intersectPaths } from './intersect.ts';
import { pathEnd, pathStart, type Location, type Path } from './path.ts';
import { distance, movePoint, type Point } from './point.ts';
import { reversePath } from './reverse-path.ts';
import { line, type Segment } from './segment.ts';
import { CRUMB, EXTENSION_LIMIT, SAME_POINT, STILL, STUB } from './tolerance.ts';
import { endPathAt, trimEnd } from './trim-path.ts';
import { cross, magnitude, scaled, vectorTo, type Vector } from './vector.ts';
import { withoutStub } from './without-stub.ts';

/** Where an extension sets off and in which direction; `kept` segments stay before it. */
interface Ray {
  readonly from: Point;
  readonly direction: Vector;
  readonly kept: readonly Segment[];
}

/**
 * The straight way on from the end of a path, along its end tangent. A last straight segment is taken into the extension, so that
 * extending again adds no node; so is a last stub too short to have a direction of its own, whose place the segment before it takes.
 * Undefined when the whole path is one point.
 */
const endRay = (path: Path): Ray | undefined => {
  const kept = withoutStub(path).segments;
  const last = kept.at(-1)!;
  const direction = tangentOn(last, 1);
  if (magnitude(direction) === 0) return undefined;
  if (last.kind === 'line') return { from: last.start, direction, kept: kept.slice(0, -1) };
  return { from: last.end, direction, kept };
};

/** The ray's path on to `to`, which lies on it. */
const follow = (ray: Ray, to: Point): Path => {
  if (ray.kept.length > 0 && distance(ray.from, to) < CRUMB) return endPathAt({ segments: ray.kept }, to);
  return { segments: [...ray.kept, line(ray.from, to)] };
};

interface Corner {
  readonly a: Path;
  readonly b: Path;
  /** What is cut off and added in all. */
  readonly cost: number;
}

const cutOff = (path: Path, at: Location): number => pathLength(path) - lengthTo(path, at);

/** The two paths cut at each place where they cross; `b` runs backwards, so that both are cut at their ends. */
const trimmed = (a: Path, b: Path): Corner[] =>
  intersectPaths(a, b)
    .filter((c) => lengthTo(a, c.a) > CRUMB && lengthTo(b, c.b) > CRUMB)
    .map((c) => ({ a: trimEnd(a, c.a, c.point), b: trimEnd(b, c.b, c.point), cost: cutOff(a, c.a) + cutOff(b, c.b) }));

/** `a` extended until it meets `b`, which is cut there. */
const extended = (a: Path, ray: Ray, b: Path, reach: number): Corner[] => {
  const own = pathEnd(a);
  const tip = movePoint(ray.from, scaled(ray.direction, distance(ray.from, own) + reach));
  return intersectPaths({ segments: [line(ray.from, tip)] }, b)
    .filter((c) => lengthTo(b, c.b) > CRUMB && isAhead(ray, own, c.point))
    .map((c) => ({
      a: follow(ray, c.point),
      b: trimEnd(b, c.b, c.point),
      cost: distance(own, c.point) + cutOff(b, c.b),
    }));
};

/** Whether a point of the ray lies past the path's own end, or short of it by no more than a stub. */
const isAhead = (ray: Ray, own: Point, at: Point): boolean =>
  distance(ray.from, at) >= distance(ray.from, own) - STUB && distance(ray.from, at) > 0;

/** Both extended to where their rays cross. */
const bothExtended = (a: Path, first: Ray, b: Path, second: Ray, reach: number): Corner[] => {
  const sine = cross(first.direction, second.direction);
  if (Math.abs(sine) < STILL) return [];
  const along = cross(vectorTo(first.from, second.from), second.direction) / sine;
  const back = cross(vectorTo(first.from, second.from), first.direction) / sine;
  if (along < 0 || back < 0) return [];
  const at = movePoint(first.from, scaled(first.direction, along));
  const cost = distance(pathEnd(a), at) + distance(pathEnd(b), at);
  if (cost > 2 * reach || !isAhead(first, pathEnd(a), at) || !isAhead(second, pathEnd(b), at)) return [];
  return [{ a: follow(first, at), b: follow(second, at), cost }];
};

/**
 * Makes the end of `a` and the start of `b` one corner: both cut where they cross, or one or both extended along their end tangents to
 * where they then cross; of several ways the one that cuts off and adds least. Ends that meet exactly are left as they are; ends
 * within SAME_POINT are moved together. Undefined when there is no crossing that leaves something of both, or when it lies farther
 * away than EXTENSION_LIMIT times the gap, the two being all but parallel.
 */
export const meetAtCorner = (a: Path, b: Path): { readonly a: Path; readonly b: Path } | undefined => {
  const gap = distance(pathEnd(a), pathStart(b));
  if (gap === 0) return { a, b };
  const back = reversePath(b);
  if (gap <= SAME_POINT) return { a, b: reversePath(endPathAt(back, pathEnd(a))) };
  const reach = EXTENSION_LIMIT * gap;
  const [first, second] = [endRay(a), endRay(back)];
  const ways = [
    ...trimmed(a, back),
    ...(first === undefined ? [] : extended(a, first, back, reach)),
    ...(second === undefined ? [] : extended(back, second, a, reach).map((c) => ({ a: c.b, b: c.a, cost: c.cost }))),
    ...(first === undefined || second === undefined ? [] : bothExtended(a, first, back, second, reach)),
  ];
  const best = ways.reduce<Corner | undefined>(
    (least, way) => (least && least.cost <= way.cost ? least : way),
    undefined,
  );
  return best && { a: best.a, b: reversePath(best.b) };
};
