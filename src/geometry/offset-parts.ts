import type { Clearance } from './offset-clearance.ts';
import type { StrandMeeting } from './offset-crossings.ts';
import type { Source } from './offset-source.ts';
import { strandFoot, strandPoint, type Strand } from './offset-strand.ts';
import { distance } from './point.ts';

/** Where along a part its clearance is asked for, the surest first. */
const CLEARANCE_LOOKS = [0.5, 0.25, 0.75, 0.1, 0.9];

/** A stretch of a strand between two crossings. */
export interface StrandPart {
  readonly strand: Strand;
  readonly length: number;
  readonly clear: boolean;
  /** The parts that may follow, the best first. */
  readonly next: number[];
}

/** Parts the strands at their crossings, asks of each whether it keeps clear, and says which may follow which. */
export const strandParts = (
  strands: readonly Strand[],
  sources: readonly Source[],
  clearance: Clearance,
  crossings: readonly StrandMeeting[],
): readonly StrandPart[] => {
  const cuts: { readonly t: number; readonly crossing: number }[][] = strands.map(() => []);
  for (const [crossing, c] of crossings.entries()) {
    cuts[c.first]!.push({ t: c.firstT, crossing });
    cuts[c.second]!.push({ t: c.secondT, crossing });
  }
  const parts: StrandPart[] = [];
  const firstOf: number[] = [];
  const startingAt: number[][] = crossings.map(() => []);
  const endingAt: number[][] = crossings.map(() => []);
  for (const [index, strand] of strands.entries()) {
    const sorted = cuts[index]!.toSorted((a, b) => a.t - b.t);
    firstOf.push(parts.length);
    let from = strand.from;
    let start = strand.start;
    for (const cut of [...sorted, undefined]) {
      const to = cut?.t ?? strand.to;
      const end = cut === undefined ? strand.end : crossings[cut.crossing]!.point;
      const piece: Strand = { ...strand, from, to, start, end };
      const middle = strandPoint(strand, sources[strand.source]!, (from + to) / 2);
      const length = distance(start, middle) + distance(middle, end);
      if (cut !== undefined) {
        endingAt[cut.crossing]!.push(parts.length);
        startingAt[cut.crossing]!.push(parts.length + 1);
      }
      parts.push({
        strand: piece,
        length,
        clear: isClear(piece, strand, sources, clearance),
        next: [],
      });
      from = to;
      start = end;
    }
  }
  // At a crossing the other strand is the way on: straight on is only right where the two merely touch.
  for (const [k, ending] of endingAt.entries()) {
    for (const i of ending) parts[i]!.next.push(...startingAt[k]!.filter((j) => j !== i + 1), i + 1);
  }
  for (const [index, strand] of strands.entries()) {
    const last = (firstOf[index + 1] ?? parts.length) - 1;
    if (strand.joined) parts[last]!.next.push(firstOf[(index + 1) % strands.length]!);
  }
  return parts;
};

/** Looked at in several places: between two crossings a part is clear everywhere or nowhere. */
const isClear = (piece: Strand, whole: Strand, sources: readonly Source[], clearance: Clearance): boolean => {
  const source = sources[piece.source]!;
  const free = piece.corner !== undefined && !piece.corner.even ? piece.corner : undefined;
  return CLEARANCE_LOOKS.every((look) => {
    const t = piece.from + (piece.to - piece.from) * look;
    return !clearance.isTooNear(strandPoint(whole, source, t), {
      source: piece.source,
      foot: strandFoot(piece, source, t),
      free,
      exact: true,
    });
  });
};
