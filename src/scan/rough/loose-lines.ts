import { distance, type Point } from '../../geometry/point.ts';
import { dot, unit, vectorTo, type Vector } from '../../geometry/vector.ts';
import type { RoughOutline } from '../rough-outline.ts';
import type { WorkingPicture } from '../working-picture.ts';
import { farthestAlong } from './farthest-along.ts';
import { longerSide } from './longer-side.ts';
import { inkParts, type InkPart } from './ink-parts.ts';
import { insidePolygon } from './inside-polygon.ts';

/** Ink nearer to an outline than this, in millimetres, belongs to it: half of a thick line and its blur. */
const BAND = 1.1;

/** A line that goes on for less than this beyond an outline, in millimetres, is a tick, a letter, or a pen that ran over a corner. */
const LEAST = 12;

/** A line by itself as large as this both ways, in millimetres, could have been a panel. */
const ALONE_LONG = 40;
const ALONE_WIDE = 8;

/** Of the usual width of outlines, how much a line must have to be drawn with the same pen. */
const SAME_PEN = 0.8;

/** A line runs on from an outline if it leaves within this angle of how the outline came, as a cosine: 26 degrees. */
const RUNS_ON = 0.9;

/** Where the way of a line and of an outline is read, in millimetres from where they part. */
const NEAR = 1;
const FAR = 4;

/** A line from edge to edge longer than this share of its panel's box divides it lengthwise. */
const LENGTHWISE = 0.7;

/** Places nearer together than this, in millimetres, are one. */
const ONE_PLACE = 2.5;

/** Nearer to the picture's border than this, in millimetres, a line runs out of it. */
const BORDER = 1.5;

/** A line as wide as an outline that is not part of any. */
export interface LooseLine {
  /**
   * `open`: it ends; `cut`: it ends at the picture's border; `shared`: it leaves an outline and comes back to it outside; `branch`: it
   * leaves an outline inwards; `divides`: it parts a panel lengthwise.
   */
  readonly how: 'open' | 'cut' | 'shared' | 'branch' | 'divides';
  /** The number of the outline it leaves; none if it stands alone. */
  readonly outline?: number;
  /** Where it ends, or where it leaves the outline, in places of the picture. */
  readonly at: Point;
}

interface Touch {
  readonly outline: number;
  readonly at: Point;
  readonly pixel: number;
  readonly runsOn: boolean;
}

/**
 * Lines drawn with the pen of the outlines that no outline follows: where a panel's line has a gap, something else may close a part of
 * it, and this is what remains of the rest. Lines that only cross or tie outlines are not among them, nor what is thinner.
 */
export const looseLines = (
  working: WorkingPicture,
  outlines: readonly RoughOutline[],
  pxPerMm: number,
): LooseLine[] => {
  const { width, height, ink, step } = working;
  const scale = pxPerMm / step;
  const polygons = outlines.map(({ points }) => points.map(({ x, y }) => ({ x: x / step, y: y / step })));
  const owner = bandsRound(polygons, width, height, BAND * scale);
  const rest = new Uint8Array(ink.length);
  const along: number[] = [];
  for (let at = 0; at < rest.length; at += 1) {
    if (ink[at] === 0) continue;
    if (owner[at] === 0) rest[at] = 1;
    else along.push(at);
  }
  const pen = widthOf({ pixels: along }, working);
  const parts = inkParts(rest, width, height, LEAST * scale).filter((part) => widthOf(part, working) >= SAME_PEN * pen);
  return parts.flatMap((part): LooseLine[] => {
    const touches = touchesOf(part, owner, polygons, width, scale);
    const placed = (pixel: number): Point => placeOf(pixel, width);
    const ended = (pixel: number, outline?: number): LooseLine => {
      const { x, y } = placed(pixel);
      const isCut = Math.min(x, y, width - x, height - y) < BORDER * scale;
      return {
        how: isCut ? 'cut' : 'open',
        at: { x: x * step, y: y * step },
        ...(outline === undefined ? {} : { outline }),
      };
    };
    const inside = polygons.findIndex((polygon) =>
      insidePolygon(polygon, placed(part.pixels[part.pixels.length >> 1]!)),
    );
    if (touches.length === 0) {
      const [across, down] = [(part.right - part.left) / scale, (part.bottom - part.top) / scale];
      if (inside >= 0 || Math.max(across, down) < ALONE_LONG || Math.min(across, down) < ALONE_WIDE) return [];
      const one = farthestAlong(part, width, part.pixels[0]!);
      return [ended(one), ended(farthestAlong(part, width, one))];
    }
    const leaves = touches.find(({ runsOn }) => runsOn);
    const { outline } = leaves ?? touches[0]!;
    const line = (how: LooseLine['how'], { x, y }: Point): LooseLine => ({
      how,
      outline,
      at: { x: x * step, y: y * step },
    });
    const isWithin = insidePolygon(polygons[outline]!, placed(part.pixels[part.pixels.length >> 1]!));
    if (isWithin) {
      const long = LENGTHWISE * longerSide(polygons[outline]!);
      const apart = touches.some((one) => one.outline === outline && distance(one.at, touches[0]!.at) > long);
      if (apart && touches[0]!.outline === outline) return [line('divides', touches[0]!.at)];
      return leaves === undefined ? [] : [line('branch', leaves.at)];
    }
    if (leaves === undefined) return [];
    if (touches.filter((one) => one.outline === outline).length > 1) return [line('shared', leaves.at)];
    return [ended(farthestAlong(part, width, leaves.pixel), outline)];
  });
};

const placeOf = (pixel: number, width: number): Point => ({
  x: (pixel % width) + 0.5,
  y: Math.floor(pixel / width) + 0.5,
});

/** How wide a stroke is, from its ink and its rim. */
const widthOf = ({ pixels }: { readonly pixels: ArrayLike<number> }, { ink, width }: WorkingPicture): number => {
  let rim = 1;
  for (let k = 0; k < pixels.length; k += 1) {
    const at = pixels[k]!;
    if ((ink[at - 1]! & ink[at + 1]! & (ink[at - width] ?? 0) & (ink[at + width] ?? 0)) === 0) rim += 1;
  }
  return (2 * pixels.length) / rim;
};

/** For each pixel near an outline, its number and 1; 0 elsewhere. */
const bandsRound = (
  polygons: readonly (readonly Point[])[],
  width: number,
  height: number,
  reach: number,
): Uint16Array => {
  const owner = new Uint16Array(width * height);
  for (const [number, polygon] of polygons.entries()) {
    for (const { x, y } of polygon) {
      const [top, bottom] = [Math.max(0, Math.floor(y - reach)), Math.min(height - 1, Math.ceil(y + reach))];
      for (let v = top; v <= bottom; v += 1) {
        const half = Math.sqrt(Math.max(0, reach * reach - (v + 0.5 - y) ** 2));
        owner.fill(
          number + 1,
          v * width + Math.max(0, Math.round(x - half)),
          v * width + Math.min(width, Math.round(x + half)),
        );
      }
    }
  }
  return owner;
};

/** Where a part hangs on outlines, and whether it goes on there as the outline came. */
const touchesOf = (
  part: InkPart,
  owner: Uint16Array,
  polygons: readonly (readonly Point[])[],
  width: number,
  scale: number,
): Touch[] => {
  const touches: Touch[] = [];
  for (const pixel of part.pixels) {
    const number = owner[pixel - 1]! || owner[pixel + 1]! || owner[pixel - width] || owner[pixel + width] || 0;
    if (number === 0) continue;
    const at = placeOf(pixel, width);
    if (touches.some((one) => one.outline === number - 1 && distance(one.at, at) < ONE_PLACE * scale)) continue;
    const runsOn = comesOn(polygons[number - 1]!, at, wayFrom(part, at, width, scale), scale);
    touches.push({ outline: number - 1, at, pixel, runsOn });
  }
  return touches;
};

/** Which way a part leaves a place. */
const wayFrom = (part: InkPart, at: Point, width: number, scale: number): Vector => {
  let [x, y] = [0, 0];
  for (const pixel of part.pixels) {
    const way = vectorTo(at, placeOf(pixel, width));
    const far = Math.hypot(way.dx, way.dy);
    if (far > FAR * scale || far < NEAR * scale) continue;
    [x, y] = [x + way.dx, y + way.dy];
  }
  return x === 0 && y === 0 ? { dx: 0, dy: 0 } : unit({ dx: x, dy: y });
};

/** Whether an outline, run along either way, comes to a place in the direction `onwards`. */
const comesOn = (polygon: readonly Point[], at: Point, onwards: Vector, scale: number): boolean => {
  let nearest = 0;
  for (const [k, p] of polygon.entries()) if (distance(p, at) < distance(polygon[nearest]!, at)) nearest = k;
  return [-1, 1].some((way) => {
    const back = (reach: number): Point => {
      let [k, gone] = [nearest, 0];
      for (let steps = 0; gone < reach * scale && steps < polygon.length; steps += 1) {
        const next = (k + way + polygon.length) % polygon.length;
        gone += distance(polygon[k]!, polygon[next]!);
        k = next;
      }
      return polygon[k]!;
    };
    const [far, near] = [back(FAR), back(NEAR)];
    return distance(far, near) > 0 && dot(unit(vectorTo(far, near)), onwards) > RUNS_ON;
  });
};
