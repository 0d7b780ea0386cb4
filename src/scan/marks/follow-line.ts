/**
 * A straight line followed through the ink of a field from a piece of it: in both directions, over what crosses it and over gaps, as
 * long as there is ink on it. The line is fitted again to the middles of the ink across it each time it has grown by half.
 */
import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import { BAND, pixelAt, type MarkField } from './mark-field.ts';

/** In millimetres: ink wider than this across is not the line's own alone; gaps that are none; the shortest stretch that counts. */
const WIDEST = 1.6;
const HAIR_GAP = 1.2;
const SHORTEST_STRETCH = 2;
/** Ink beyond a gap goes on with the line if it is this long, or at least this share of the longest stretch so far. */
const SURE_STRETCH = 5;
const SURE_SHARE = 0.35;

export interface FollowedLine {
  /** From the first ink of the line to the last. */
  readonly line: Line;
  /** Stretches of ink: pixels of the picture from the start of the line. */
  readonly stretches: readonly { readonly from: number; readonly to: number }[];
  /** Whether it runs into the outline at its start and at its end. */
  readonly tied: readonly [boolean, boolean];
  readonly cover: number;
  /** Root mean square of how far the middles of the ink lie off the line, pixels of the picture. */
  readonly spread: number;
}

interface Ray {
  readonly at: Point;
  readonly dx: number;
  readonly dy: number;
}

interface Sample {
  /** How far along and how far to the right of the ray, picture pixels. */
  readonly along: number;
  readonly off: number;
  readonly isNarrow: boolean;
}

interface Walk {
  readonly samples: readonly Sample[];
  /** Where the walk came to the outline's band. */
  readonly outline?: number;
  /** Nothing more to be found beyond. */
  readonly isOver: boolean;
}

/** The ink of one place across the ray: the run of ink that holds the place, or begins a pixel beside it. */
const sampleAt = (field: MarkField, ray: Ray, along: number, widest: number): Sample | undefined => {
  const { step } = field;
  const isInk = (k: number): boolean => {
    const off = k * step;
    const p = pixelAt(field, ray.at.x + ray.dx * along - ray.dy * off, ray.at.y + ray.dy * along + ray.dx * off);
    return p >= 0 && field.ink[p] === 1;
  };
  const first = [0, 1, -1].find(isInk);
  if (first === undefined) return undefined;
  let [low, high] = [first, first];
  while (high - low < widest && isInk(low - 1)) low -= 1;
  while (high - low < widest && isInk(high + 1)) high += 1;
  return { along, off: ((low + high) / 2) * step, isNarrow: high - low + 1 < widest };
};

const walk = (field: MarkField, ray: Ray, sign: 1 | -1, range: number, gap: number, widest: number): Walk => {
  const samples: Sample[] = [];
  let last = 0;
  for (let s = 0; s <= range; s += field.step) {
    const along = sign * s;
    const p = pixelAt(field, ray.at.x + ray.dx * along, ray.at.y + ray.dy * along);
    if (p < 0) return { samples, isOver: true };
    if ((field.zone[p]! & BAND) !== 0) return { samples, outline: along, isOver: true };
    const sample = sampleAt(field, ray, along, widest);
    if (sample) {
      samples.push(sample);
      last = s;
    } else if (s - last > gap) return { samples, isOver: true };
  }
  return { samples, isOver: false };
};

/** The ray through the middles of the narrow ink: least squares, once without what lies far off. */
const refit = (ray: Ray, samples: readonly Sample[], far: number): Ray => {
  let fit = { a: 0, b: 0 };
  let used = samples.filter((s) => s.isNarrow);
  for (let round = 0; round < 2; round += 1) {
    if (used.length < 3) return ray;
    const mean = used.reduce((sum, s) => sum + s.along, 0) / used.length;
    const meanOff = used.reduce((sum, s) => sum + s.off, 0) / used.length;
    const square = used.reduce((sum, s) => sum + (s.along - mean) ** 2, 0);
    const b = square === 0 ? 0 : used.reduce((sum, s) => sum + (s.along - mean) * (s.off - meanOff), 0) / square;
    fit = { a: meanOff - b * mean, b };
    const { a } = fit;
    used = used.filter((s) => Math.abs(s.off - a - b * s.along) <= far);
  }
  const [dx, dy] = [ray.dx - fit.b * ray.dy, ray.dy + fit.b * ray.dx];
  const long = Math.hypot(dx, dy);
  return {
    at: { x: ray.at.x - ray.dy * fit.a, y: ray.at.y + ray.dx * fit.a },
    dx: dx / long,
    dy: dy / long,
  };
};

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Runs of samples without gaps over a hair's; `along` must rise. */
const stretchesOf = (samples: readonly Sample[], hair: number): Stretch[] => {
  const found: { from: number; to: number }[] = [];
  for (const { along } of samples) {
    const last = found.at(-1);
    if (last && along - last.to <= hair) last.to = along;
    else found.push({ from: along, to: along });
  }
  return found;
};

/** The stretches that belong together, outwards from the longest. */
const together = (stretches: readonly Stretch[], mm: number): Stretch[] => {
  const long = ({ from, to }: Stretch): number => to - from;
  const longest = stretches.reduce((best, s) => (long(s) > long(best) ? s : best));
  const enough = Math.max(SHORTEST_STRETCH * mm, Math.min(SURE_STRETCH * mm, SURE_SHARE * long(longest)));
  return stretches.filter((s) => s === longest || long(s) >= enough);
};

/**
 * The line that `piece` is a part of, over gaps of up to `gap` picture pixels. Between its ends may be dots and letters too short to
 * count as stretches. Nothing if there is no ink along the piece.
 */
export const followLine = (field: MarkField, piece: Line, gap: number, mm: number): FollowedLine | undefined => {
  const widest = Math.ceil((WIDEST * mm) / field.step);
  const long = Math.hypot(piece.end.x - piece.start.x, piece.end.y - piece.start.y);
  let ray: Ray = {
    at: { x: (piece.start.x + piece.end.x) / 2, y: (piece.start.y + piece.end.y) / 2 },
    dx: (piece.end.x - piece.start.x) / long,
    dy: (piece.end.y - piece.start.y) / long,
  };
  const far = 1.2 * field.step;
  let walks: [Walk, Walk] | undefined;
  for (let range = long / 2; ; range = 1.5 * range + mm) {
    const back = walk(field, ray, -1, range, gap, widest);
    const on = walk(field, ray, 1, range, gap, widest);
    walks = [back, on];
    const isOver = back.isOver && on.isOver;
    ray = refit(ray, [...back.samples, ...on.samples], far);
    if (isOver) break;
  }
  const back = walk(field, ray, -1, Infinity, gap, widest);
  const on = walk(field, ray, 1, Infinity, gap, widest);
  walks = [back, on];
  const samples = [...back.samples.slice(1).toReversed(), ...on.samples];
  if (samples.length < 3) return undefined;
  const all = stretchesOf(samples, Math.min(gap, HAIR_GAP * mm));
  const stretches = together(all, mm);
  const [from, to] = [stretches[0]!.from, stretches.at(-1)!.to];
  const gaps = stretches.slice(1).map((s, i) => s.from - stretches[i]!.to);
  const open = Math.max(Math.min(gap, HAIR_GAP * mm), ...gaps) + 2 * field.step;
  const isTied = (outline: number | undefined, end: number, last: number): boolean =>
    outline !== undefined && Math.abs(outline - end) <= Math.max(open, 1.6 * gap) && Math.abs(outline - last) <= open;
  const tied: [boolean, boolean] = [
    isTied(walks[0].outline, from, samples[0]!.along),
    isTied(walks[1].outline, to, samples.at(-1)!.along),
  ];
  const within = samples.filter((s) => s.along >= from && s.along <= to);
  const narrow = within.filter((s) => s.isNarrow && Math.abs(s.off) <= 1.5 * field.step);
  const place = (along: number): Point => ({ x: ray.at.x + ray.dx * along, y: ray.at.y + ray.dy * along });
  return {
    line: line(place(from), place(to)),
    stretches: stretches.map((s) => ({ from: s.from - from, to: s.to - from })),
    tied,
    cover: (narrow.length * field.step) / (to - from + field.step),
    spread: Math.sqrt(narrow.reduce((sum, s) => sum + s.off ** 2, 0) / Math.max(1, narrow.length)),
  };
};
