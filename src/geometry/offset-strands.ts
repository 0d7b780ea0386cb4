import { samePoint, type Point } from './point.ts';
import { joinAtCorner, type Joint } from './offset-corner.ts';
import { forwardness, parallelAt, type Source } from './offset-source.ts';
import type { Corner, Strand } from './offset-strand.ts';

/** The strands of a path in order; `whole` when each is joined to the next and nothing ran back, so that only clearance is left to ask. */
export interface Laid {
  readonly strands: readonly Strand[];
  readonly whole: boolean;
}

const LOOKS = 16;
const HALVINGS = 40;
const THIRDS = 24;

/**
 * Lays out the parallels of all sources with the corners between them. `tight` trims inward corners on the two parallels that
 * meet there; without it those stay long, to be cut wherever they cross.
 */
export const layStrands = (sources: readonly Source[], closed: boolean, tight: boolean): Laid => {
  const count = sources.length;
  const after: (Joint | undefined)[] = Array.from({ length: count });
  const dropped = new Uint8Array(count);
  const far: Joint[] = [];
  for (let i = 0; i < (closed ? count : count - 1); i += 1) {
    const j = (i + 1) % count;
    const joint = joinAtCorner(sources, i, j, tight);
    if (joint.end.source === i && joint.start.source === j) {
      after[i] = joint;
      continue;
    }
    far.push(joint);
    for (let k = joint.end.source; k !== i; k = (k + 1) % count) dropped[(k + 1) % count] = 1;
    for (let k = j; k !== joint.start.source; k = (k + 1) % count) dropped[k] = 1;
  }
  for (const joint of far) after[joint.end.source] = joint;
  const kept = [...sources.keys()].filter((i) => dropped[i] === 0);
  const strands: Strand[] = [];
  let whole = kept.length > 0;
  for (const [place, i] of kept.entries()) {
    const source = sources[i]!;
    const previous = place > 0 ? after[kept[place - 1]!] : closed ? after[kept[kept.length - 1]!] : undefined;
    const next = place < kept.length - 1 || closed ? after[i] : undefined;
    const from = previous?.start.t ?? 0;
    const to = next?.end.t ?? 1;
    const stretches = from < to ? forwardStretches(source, from, to) : [];
    const startsForward = stretches.length > 0 && stretches[0]![0] === from;
    const endsForward = stretches.length > 0 && stretches[stretches.length - 1]![1] === to;
    if (stretches.length !== 1 || !startsForward || !endsForward) whole = false;
    if (previous?.kind === 'apart' || next?.kind === 'apart') whole = false;
    // What one corner drops another may have kept.
    if (previous !== undefined && previous.start.source !== i) whole = false;
    if (next === undefined && (closed || place < kept.length - 1)) whole = false;
    const corner = (joint: Joint): Corner => ({
      at: sources[(joint.end.source + 1) % count]!.segment.start,
      first: joint.end.source,
      last: joint.start.source,
      even: sources[joint.end.source]!.distance === sources[joint.start.source]!.distance,
      step: joint.tips.length === 0,
    });
    if (previous?.kind === 'lines' && previous.tips.length > 0) {
      addLine(
        strands,
        i,
        previous.tips[previous.tips.length - 1]!,
        previous.start.point,
        startsForward,
        corner(previous),
      );
    } else if (previous !== undefined && previous.kind !== 'apart' && !startsForward && strands.length > 0) {
      strands.push({ ...strands.pop()!, joined: false });
    }
    for (const [k, [t0, t1]] of stretches.entries()) {
      const last = k === stretches.length - 1;
      strands.push({
        kind: 'parallel',
        source: i,
        from: t0,
        to: t1,
        start: t0 === from && previous !== undefined ? previous.start.point : parallelAt(source, t0),
        end: t1 === to && next !== undefined ? next.end.point : parallelAt(source, t1),
        joined: last && endsForward && next !== undefined && next.kind !== 'apart',
      });
    }
    if (next?.kind === 'lines') {
      const points = next.tips.length > 0 ? next.tips.slice(0, 1) : [next.start.point];
      addLine(strands, i, next.end.point, points[0]!, true, corner(next));
    }
  }
  return { strands: closed ? unjoinLast(strands) : strands, whole };
};

const addLine = (
  strands: Strand[],
  source: number,
  start: Point,
  end: Point,
  joined: boolean,
  corner: Corner,
): void => {
  if (!samePoint(start, end)) strands.push({ kind: 'line', source, from: 0, to: 1, start, end, joined, corner });
};

/** The last strand is joined to the first only where they share a point. */
const unjoinLast = (strands: readonly Strand[]): readonly Strand[] => {
  const last = strands[strands.length - 1];
  if (last === undefined || !last.joined || samePoint(last.end, strands[0]!.start)) return strands;
  return [...strands.slice(0, -1), { ...last, joined: false }];
};

/** The stretches of [from, to] on which the parallel runs forward, parted at its cusps. */
const forwardStretches = (s: Source, from: number, to: number): readonly (readonly [number, number])[] => {
  if (s.straight || s.distance === 0) return [[from, to]];
  const places = [from];
  const values = [forwardness(s, from)];
  for (let i = 1; i <= LOOKS; i += 1) {
    const t = i === LOOKS ? to : from + ((to - from) * i) / LOOKS;
    places.push(t);
    values.push(forwardness(s, t));
  }
  let opened = values[0]! > 0 ? from : undefined;
  const stretches: [number, number][] = [];
  const pass = (t0: number, forward0: boolean, t1: number, forward1: boolean): void => {
    if (forward0 === forward1) return;
    const cusp = cuspBetween(s, t0, t1);
    if (opened === undefined) opened = cusp;
    else {
      stretches.push([opened, cusp]);
      opened = undefined;
    }
  };
  for (let i = 1; i <= LOOKS; i += 1) {
    const dips = i < LOOKS && values[i]! > 0 && values[i]! <= values[i - 1]! && values[i]! <= values[i + 1]!;
    const least = dips ? leastBetween(s, places[i - 1]!, places[i + 1]!) : undefined;
    if (least !== undefined && forwardness(s, least) <= 0) {
      // A short stretch back, between two looks.
      pass(places[i - 1]!, true, least, false);
      pass(least, false, places[i + 1]!, true);
    } else pass(places[i - 1]!, values[i - 1]! > 0, places[i]!, values[i]! > 0);
  }
  if (opened !== undefined) stretches.push([opened, to]);
  return stretches;
};

/** Where `forwardness` is least in [a, b], by thirds. */
const leastBetween = (s: Source, a: number, b: number): number => {
  let low = a;
  let high = b;
  for (let i = 0; i < THIRDS; i += 1) {
    const third = (high - low) / 3;
    if (forwardness(s, low + third) < forwardness(s, high - third)) high -= third;
    else low += third;
  }
  return (low + high) / 2;
};

const cuspBetween = (s: Source, t0: number, t1: number): number => {
  const forwardFirst = forwardness(s, t0) > 0;
  let a = t0;
  let b = t1;
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (a + b) / 2;
    if (forwardness(s, middle) > 0 === forwardFirst) a = middle;
    else b = middle;
  }
  return forwardFirst ? a : b;
};
