import type { Arc } from './trace-arcs.ts';

/** Places nearer together than this, in millimetres, where lines meet are one place: a crossing is seen as two meetings side by side. */
const ONE_PLACE = 1;

/** How much a drawn line may turn (radians) where another meets it and still run on through: lines are smooth, corners stand apart. */
const RUNS_ON = 0.7;

/** The direction of a line at a meeting is read over this much of it, in millimetres, beyond what the meeting itself disturbs. */
const READ = 2;

/** A component whose closed lines are all smaller than this, in millimetres, is taken as one shape with lines across. */
const SMALL = 20;

/** A closed line: its places in order, x and y in turn, as pixel corners. */
export type Loop = readonly number[];

/** One end of an arc, where it meets others: which arc, which end, the place where it meets, and which way it leaves. */
interface End {
  readonly arc: Arc;
  readonly atStart: boolean;
  readonly node: number;
  readonly dx: number;
  readonly dy: number;
  /** A place on the arc just beyond what the meeting disturbs. */
  readonly x: number;
  readonly y: number;
}

/** An arc as it is run through: forwards or back. */
interface Run {
  readonly first: End;
  readonly last: End;
}

/**
 * The closed lines in a drawing of arcs. Where lines meet, the two that go straight through are one line; a line that stops there (a
 * waist line at the outline, a stroke that ties two panels) is another. What closes upon itself is an outline. Where no line of a
 * drawing closes so, as when a line ends just in a corner, the outline is what bounds the whole drawing.
 */
export const closedStrands = (arcs: readonly Arc[], halfWidth: number, pxPerMm: number): Loop[] => {
  const loops: Loop[] = arcs.filter((arc) => arc.alone).map((arc) => Array.from(arc.places));
  for (const drawing of drawings(
    arcs.filter((arc) => !arc.alone),
    Math.max(ONE_PLACE * pxPerMm, 3 * halfWidth),
  )) {
    const ends = drawing.arcs.flatMap((arc) => endsOf(arc, drawing.nodeOf, halfWidth, pxPerMm));
    const found = strandLoops(ends, RUNS_ON);
    if (found.some((loop) => sizeOf(loop) >= SMALL * pxPerMm)) {
      loops.push(...found);
      continue;
    }
    const around = surrounding(drawing.arcs);
    const outer = strandLoops(
      ends.filter(({ arc }) => (arc.left === around) !== (arc.right === around)),
      Math.PI,
    ).toSorted((a, b) => sizeOf(b) - sizeOf(a))[0];
    loops.push(...(outer === undefined ? found : [outer]));
  }
  return loops;
};

/** The longer side of the upright box round a loop. */
const sizeOf = (loop: Loop): number => {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let k = 0; k < loop.length; k += 2) {
    [left, right] = [Math.min(left, loop[k]!), Math.max(right, loop[k]!)];
    [top, bottom] = [Math.min(top, loop[k + 1]!), Math.max(bottom, loop[k + 1]!)];
  }
  return Math.max(right - left, bottom - top);
};

const rootOf = (parents: Map<number, number>, node: number): number => {
  let root = node;
  for (let next = parents.get(root); next !== undefined && next !== root; next = parents.get(root)) root = next;
  return root;
};

/** Arcs that hang together, with places that are one made one; arcs within such a place fall away. */
const drawings = (arcs: readonly Arc[], onePlace: number): { arcs: Arc[]; nodeOf: (corner: number) => number }[] => {
  const places = new Map<number, number>();
  const long: Arc[] = [];
  for (const arc of arcs) {
    if (arc.places.length / 2 - 1 > onePlace) long.push(arc);
    else places.set(rootOf(places, arc.from), rootOf(places, arc.to));
  }
  const nodeOf = (corner: number): number => rootOf(places, corner);
  const together = new Map<number, number>();
  for (const arc of long) together.set(rootOf(together, nodeOf(arc.from)), rootOf(together, nodeOf(arc.to)));
  const parts = new Map<number, Arc[]>();
  for (const arc of long) {
    const part = rootOf(together, nodeOf(arc.from));
    const known = parts.get(part);
    if (known === undefined) parts.set(part, [arc]);
    else known.push(arc);
  }
  return [...parts.values()].map((part) => ({ arcs: part, nodeOf }));
};

const endsOf = (arc: Arc, nodeOf: (corner: number) => number, halfWidth: number, pxPerMm: number): [End, End] => {
  const count = arc.places.length / 2;
  const near = Math.min(Math.round(0.5 * pxPerMm + halfWidth), Math.floor(count / 4));
  const far = Math.min(near + Math.round(READ * pxPerMm), count - 1);
  const end = (atStart: boolean): End => {
    const place = (steps: number): number => 2 * (atStart ? steps : count - 1 - steps);
    const dx = arc.places[place(far)]! - arc.places[place(near)]!;
    const dy = arc.places[place(far) + 1]! - arc.places[place(near) + 1]!;
    const length = Math.hypot(dx, dy) || 1;
    const node = nodeOf(atStart ? arc.from : arc.to);
    const [x, y] = [arc.places[place(near)]!, arc.places[place(near) + 1]!];
    return { arc, atStart, node, dx: dx / length, dy: dy / length, x, y };
  };
  return [end(true), end(false)];
};

const angle = (dx: number, dy: number, ex: number, ey: number): number =>
  Math.abs(Math.atan2(dx * ey - dy * ex, dx * ex + dy * ey));

/** How much a line turns that goes in by one end and on by the other; and how much on its way, if it has to change over between them. */
const turnBetween = (a: End, b: End): { turn: number; bend: number } => {
  const [x, y] = [b.x - a.x, b.y - a.y];
  return { turn: angle(-a.dx, -a.dy, b.dx, b.dy), bend: angle(-a.dx, -a.dy, x, y) + angle(x, y, b.dx, b.dy) };
};

/** Joins ends in pairs at each place, those with the least bend between them first, as long as they turn by no more than `turn`. */
const pairEnds = (ends: readonly End[], turn: number): Map<End, End> => {
  const meetings = new Map<number, End[]>();
  for (const end of ends) {
    const known = meetings.get(end.node);
    if (known === undefined) meetings.set(end.node, [end]);
    else known.push(end);
  }
  const mates = new Map<End, End>();
  for (const meeting of meetings.values()) {
    const pairs = meeting.flatMap((a, k) => meeting.slice(k + 1).map((b) => ({ a, b, ...turnBetween(a, b) })));
    for (const { a, b, turn: turns } of pairs.toSorted((p, q) => p.bend - q.bend)) {
      if (turns > turn || mates.has(a) || mates.has(b)) continue;
      mates.set(a, b);
      mates.set(b, a);
    }
  }
  return mates;
};

/** The strands that close: all round, or at a place that they pass and end in, which then is a corner. */
const strandLoops = (ends: readonly End[], turn: number): Loop[] => {
  const mates = pairEnds(ends, turn);
  const other = new Map<End, End>();
  for (let k = 0; k + 1 < ends.length; k += 2) {
    other.set(ends[k]!, ends[k + 1]!);
    other.set(ends[k + 1]!, ends[k]!);
  }
  const used = new Set<Arc>();
  const run = (start: End): Run[] => {
    const runs: Run[] = [];
    for (let first: End | undefined = start; first !== undefined && !used.has(first.arc);) {
      const last: End = other.get(first)!;
      used.add(first.arc);
      runs.push({ first, last });
      first = mates.get(last);
    }
    return runs;
  };
  const loops: Loop[] = [];
  for (const end of ends) {
    if (mates.has(end) || used.has(end.arc)) continue;
    const closed = closedPart(run(end));
    if (closed.length > 0) loops.push(...simpleParts(closed));
  }
  for (const end of ends) if (!used.has(end.arc)) loops.push(...simpleParts(run(end)));
  return loops;
};

/** The longest part of an open strand that begins and ends at one place, one of them where the strand itself ends. */
const closedPart = (runs: readonly Run[]): readonly Run[] => {
  const nodes = [runs[0]!.first.node, ...runs.map(({ last }) => last.node)];
  const toEnd = nodes.indexOf(nodes.at(-1)!);
  const fromStart = nodes.lastIndexOf(nodes[0]!);
  const parts = [runs.slice(toEnd), runs.slice(0, fromStart)];
  const length = (part: readonly Run[]): number => part.reduce((sum, { first }) => sum + first.arc.places.length, 0);
  return parts.toSorted((a, b) => length(b) - length(a))[0]!;
};

/** A closed strand that comes to one place twice, as where two outlines touch in a corner, is two. */
const simpleParts = (runs: readonly Run[]): Loop[] => {
  const parts: Run[][] = [];
  const open: Run[] = [];
  for (const one of runs) {
    open.push(one);
    const back = open.findIndex(({ first }) => first.node === one.last.node);
    if (back >= 0) parts.push(open.splice(back));
  }
  return parts.map(placesOf);
};

const placesOf = (runs: readonly Run[]): Loop =>
  runs.flatMap(({ first }) => {
    const { places } = first.arc;
    if (first.atStart) return Array.from(places);
    return Array.from({ length: places.length }, (_, k) => places[places.length - 2 - 2 * (k >> 1) + (k & 1)]!);
  });

/** The face round a drawing: what lies above its topmost level stretch. */
const surrounding = (arcs: readonly Arc[]): number => {
  let [top, face] = [Infinity, 0];
  for (const { places, left, right } of arcs) {
    for (let k = 0; k + 3 < places.length; k += 2) {
      if (places[k + 1]! >= top || places[k + 1]! !== places[k + 3]!) continue;
      top = places[k + 1]!;
      face = places[k + 2]! > places[k]! ? left : right;
    }
  }
  return face;
};
