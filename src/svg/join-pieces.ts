/**
 * Open pieces whose ends meet become closed outlines, as where a drawing program exports each line of a panel by itself. Exact meetings
 * are joined first, near ones then; pieces that close nothing stay as they were drawn.
 */
import { pathLength } from '../geometry/arc-length.ts';
import { signedArea } from '../geometry/area.ts';
import { tangentOn } from '../geometry/evaluate.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { distance, type Point } from '../geometry/point.ts';
import { reversePath } from '../geometry/reverse-path.ts';
import { FLAT_WIDTH, JOIN_GAP, SAME_POINT } from '../geometry/tolerance.ts';
import { scaled, turn, type Vector } from '../geometry/vector.ts';
import { closeGap } from './close-gap.ts';
import type { Piece } from './walk-drawing.ts';

/** Pieces end to end, each run forwards or backwards. */
interface Chain {
  readonly links: readonly { readonly piece: Piece; readonly reversed: boolean }[];
}

interface End {
  readonly chain: number;
  readonly atEnd: boolean;
  readonly at: Point;
  /** Away from the chain. */
  readonly outwards: Vector;
}

/** More ends than this in one place are a pattern of rays, not a joint. */
const MOST_AT_JOINT = 16;

const pathOf = ({ piece, reversed }: Chain['links'][number]): Path => (reversed ? reversePath(piece.path) : piece.path);

const chainStart = (chain: Chain): Path => pathOf(chain.links[0]!);
const chainEnd = (chain: Chain): Path => pathOf(chain.links.at(-1)!);

const reverseChain = (chain: Chain): Chain => ({
  links: chain.links.map(({ piece, reversed }) => ({ piece, reversed: !reversed })).toReversed(),
});

const endsOf = (chain: Chain, number: number): End[] => {
  const [first, last] = [chainStart(chain), chainEnd(chain)];
  return [
    { chain: number, atEnd: false, at: pathStart(first), outwards: scaled(tangentOn(first.segments[0]!, 0), -1) },
    { chain: number, atEnd: true, at: pathEnd(last), outwards: tangentOn(last.segments.at(-1)!, 1) },
  ];
};

/** A cell of the grid as one number; cells that share it by chance cost time only. */
const cellKey = (x: number, y: number): number => Math.imul(x, 73_856_093) ^ Math.imul(y, 19_349_663);

/** Pairs of ends no farther apart than the gap, found by a grid so that the work grows with the number of ends. */
const meetings = (ends: readonly End[], gap: number): (readonly [number, number])[] => {
  const cells = new Map<number, number[]>();
  const pairs: (readonly [number, number])[] = [];
  for (const [i, { at }] of ends.entries()) {
    const [x, y] = [Math.floor(at.x / gap), Math.floor(at.y / gap)];
    for (let dx = -1; dx <= 1; dx += 1) {
      for (let dy = -1; dy <= 1; dy += 1) {
        const near = cells.get(cellKey(x + dx, y + dy)) ?? [];
        if (near.length > MOST_AT_JOINT) continue;
        for (const j of near) if (distance(at, ends[j]!.at) <= gap) pairs.push([j, i]);
      }
    }
    const own = cells.get(cellKey(x, y));
    if (own) own.push(i);
    else cells.set(cellKey(x, y), [i]);
  }
  return pairs;
};

/** Joins chains whose ends lie within the gap; where more than two meet, lines of one group that go on most directly belong together. */
const joinWithin = (chains: readonly Chain[], gap: number): Chain[] => {
  const ends = chains.flatMap(endsOf);
  const pairs = meetings(ends, gap).filter(([i, j]) => {
    const [a, b] = [ends[i]!, ends[j]!];
    return a.chain !== b.chain || !isShort(chains[a.chain]!, gap);
  });
  const meets = new Set(pairs.flat());
  const dangles = ({ chain, atEnd }: End): boolean => !meets.has(2 * chain + (atEnd ? 0 : 1));
  const groupOf = ({ chain, atEnd }: End): string | undefined =>
    (atEnd ? chains[chain]!.links.at(-1)! : chains[chain]!.links[0]!).piece.group;
  const ranked = pairs
    .map(([i, j]) => {
      const [a, b] = [ends[i]!, ends[j]!];
      const bend = Math.abs(turn(a.outwards, scaled(b.outwards, -1)));
      const rank = (dangles(a) ? 4 : 0) + (dangles(b) ? 4 : 0) + (groupOf(a) === groupOf(b) ? 0 : 2);
      return { i, j, rank, bend };
    })
    .toSorted((p, q) => p.rank - q.rank || p.bend - q.bend);
  const partner = new Map<number, number>();
  for (const { i, j } of ranked) {
    if (partner.has(i) || partner.has(j)) continue;
    partner.set(i, j);
    partner.set(j, i);
  }
  return followPartners(chains, partner);
};

/** A chain no longer than this cannot be closed upon itself: its ends are near because it is small. */
const isShort = ({ links }: Chain, gap: number): boolean =>
  links.reduce((sum, { piece }) => sum + pathLength(piece.path), 0) <= 4 * gap;

const followPartners = (chains: readonly Chain[], partner: ReadonlyMap<number, number>): Chain[] => {
  const joined: Chain[] = [];
  const taken = new Set<number>();
  const follow = (from: number): Chain => {
    const links: Chain['links'][number][] = [];
    let entry: number | undefined = from;
    while (entry !== undefined && !taken.has(entry >> 1)) {
      taken.add(entry >> 1);
      const chain = chains[entry >> 1]!;
      links.push(...(entry % 2 === 0 ? chain : reverseChain(chain)).links);
      entry = partner.get(entry ^ 1);
    }
    return { links };
  };
  // From loose ends first, so that an open run is followed whole; what is left are rings.
  chains.forEach((_, i) => {
    for (const end of [2 * i, 2 * i + 1]) if (!taken.has(i) && !partner.has(end)) joined.push(follow(end));
  });
  chains.forEach((_, i) => {
    if (!taken.has(i)) joined.push(follow(2 * i));
  });
  return joined;
};

const isRing = (chain: Chain, gap: number): boolean =>
  distance(pathStart(chainStart(chain)), pathEnd(chainEnd(chain))) <= gap && !isShort(chain, gap);

/** Two lines that enclose nothing: one line drawn twice. */
const isFlat = (path: Path): boolean => Math.abs(signedArea(path)) <= (FLAT_WIDTH * pathLength(path)) / 2;

const sharedValue = (values: readonly (string | undefined)[]): string | undefined =>
  values.every((value) => value === values[0]) ? values[0] : undefined;

/** One closed piece made of a ring; it has the id of its only element, else of the group that all of it lies in. */
const closeRing = ({ links }: Chain): Piece => {
  const pieces = links.map(({ piece }) => piece);
  const [first] = pieces;
  const { id: _, group: __, ...rest } = first!;
  const group = sharedValue(pieces.map((piece) => piece.group));
  const id = pieces.every(({ element }) => element === first!.element) ? (first!.id ?? group) : group;
  return {
    ...rest,
    path: closeGap(links.map(pathOf)),
    closed: true,
    ...(id === undefined ? {} : { id }),
    ...(group === undefined ? {} : { group }),
  };
};

/** An open run longer than this (mm) whose ends come this near is an outline that was not closed. */
const NEARLY = { length: 100, gap: 10 };

const nearlyClosed = (chain: Chain): string | undefined => {
  const [start, end] = [pathStart(chainStart(chain)), pathEnd(chainEnd(chain))];
  const gap = distance(start, end);
  const length = chain.links.reduce((sum, { piece }) => sum + pathLength(piece.path), 0);
  if (gap > NEARLY.gap || length < NEARLY.length) return undefined;
  const at = `${Math.round(end.x)},${Math.round(end.y)} mm`;
  return `${chain.links[0]!.piece.where}: this line is not closed: its ends lie ${gap.toFixed(2)} mm apart at ${at}`;
};

/** Closes what meets; the rest comes back as it was, in the order of the drawing. */
export const joinPieces = (
  pieces: readonly Piece[],
): { readonly pieces: readonly Piece[]; readonly warnings: readonly string[] } => {
  const order = new Map(pieces.map((piece, i) => [piece, i]));
  const open = pieces.filter(({ closed }) => !closed);
  const exact = joinWithin(
    open.map((piece) => ({ links: [{ piece, reversed: false }] })),
    SAME_POINT,
  );
  const rings = exact.filter((chain) => isRing(chain, SAME_POINT));
  const runs = exact.filter((chain) => !rings.includes(chain));
  const near = joinWithin(runs, JOIN_GAP);
  const warnings: string[] = [];
  const placed: { readonly piece: Piece; readonly at: number }[] = pieces
    .filter(({ closed }) => closed)
    .map((piece) => ({ piece, at: order.get(piece)! }));
  for (const chain of [...rings, ...near]) {
    const ring = isRing(chain, JOIN_GAP) ? closeRing(chain) : undefined;
    if (ring && !isFlat(ring.path)) {
      placed.push({ piece: ring, at: Math.min(...chain.links.map(({ piece }) => order.get(piece)!)) });
      continue;
    }
    const warning = ring ? undefined : nearlyClosed(chain);
    if (warning) warnings.push(warning);
    for (const { piece } of chain.links) placed.push({ piece, at: order.get(piece)! });
  }
  return { pieces: placed.toSorted((a, b) => a.at - b.at).map(({ piece }) => piece), warnings };
};
