/**
 * The offset against bezier-js, clipper2-ts and jsts on the same panels in one run: the greatest error (from points laid densely on
 * the true offset and on the answer, both ways), the nodes, and the time; then how each grows with 10 and 100 times the nodes.
 * The polygon libraries are given the panel flattened within 0.01 mm, so that their error is theirs and not the flattening's;
 * flattening is not counted in their time. Peers run in turn, and the least time of many rounds counts.
 */
import { Bezier } from 'bezier-js';
import { offsetOutline } from '../src/geometry/offset-outline.ts';
import type { Path } from '../src/geometry/path.ts';
import { pointOn, tangentOn } from '../src/geometry/evaluate.ts';
import { nearestPoint } from '../src/geometry/nearest-point.ts';
import { between, movePoint, type Point } from '../src/geometry/point.ts';
import type { Segment } from '../src/geometry/segment.ts';
import { subSegment } from '../src/geometry/split.ts';
import { leftNormal, scaled } from '../src/geometry/vector.ts';
import { bustPanel, notched, ordinaryPanel, spike } from '../tests/geometry/offset-shapes.ts';
import { apartFrom, nearestOf, pointsOf } from '../tests/geometry/offset-truth.ts';
import { clipperOffset, jstsOffset, stubbedPolygon } from '../tests/outside/peer-offsets.ts';

const FLATNESS = 0.01;
const ROUND_MS = 60;
const ROUNDS = 5;

interface Answer {
  readonly points: readonly Point[];
  readonly nodes: number;
}

interface Peer {
  readonly name: string;
  readonly make: (panel: readonly Path[], width: number) => () => Answer;
}

const wide = (panel: readonly Path[], width: number) => panel.map((path) => ({ path, distance: width }));

const ringsOf = (rings: readonly (readonly Point[])[]): Answer => ({
  points: rings.flat(),
  nodes: rings.reduce((sum, ring) => sum + ring.length, 0),
});

const peers: readonly Peer[] = [
  {
    name: 'staywright',
    make: (panel, width) => {
      const runs = wide(panel, width);
      return () => {
        const result = offsetOutline(runs);
        return { points: [], nodes: result.reduce((sum, path) => sum + path.segments.length, 0) };
      };
    },
  },
  {
    name: 'bezier-js',
    make: (panel, width) => {
      const curves = panel.flatMap(({ segments }) => segments.map(bezierOf));
      // Its normal points to the right of travel on paper.
      return () => ({
        points: [],
        nodes: curves.reduce((sum, curve) => sum + [curve.offset(-width)].flat().length, 0),
      });
    },
  },
  {
    name: 'clipper2-ts',
    make: (panel, width) => {
      const polygon = stubbedPolygon(panel, FLATNESS);
      return () => ringsOf(clipperOffset(polygon, width));
    },
  },
  {
    name: 'jsts',
    make: (panel, width) => {
      const polygon = stubbedPolygon(panel, FLATNESS);
      return () => ringsOf(jstsOffset(polygon, width));
    },
  },
];

const bezierOf = (s: Segment): Bezier => {
  const [a, b] =
    s.kind === 'cubic'
      ? [s.startHandle, s.endHandle]
      : [between(s.start, s.end, 1 / 3), between(s.start, s.end, 2 / 3)];
  return new Bezier([s.start, a, b, s.end].map(({ x, y }) => ({ x, y })));
};

/** bezier-js joins nothing, so each of its pieces is held against the parallel of its own curve, both ways; corners are left out. */
const looseError = (panel: readonly Path[], width: number): number => {
  let worst = 0;
  for (const s of panel.flatMap(({ segments }) => segments)) {
    if (s.kind === 'line') continue;
    const pieces = [bezierOf(s).offset(-width)].flat().filter((piece) => piece instanceof Bezier);
    const made = pieces.flatMap((piece) => piece.getLUT(200).map(({ x, y }) => ({ x, y })));
    for (const p of made)
      worst = Math.max(worst, Math.abs(nearestPoint({ segments: [s] }, p).distance - Math.abs(width)));
    const toMade = nearestOf(made.slice(1).map((p, i) => [made[i]!, p] as const));
    for (let t = 0; t <= 1; t += 1 / 512) {
      worst = Math.max(worst, toMade(movePoint(pointOn(s, t), scaled(leftNormal(tangentOn(s, t)), width)), 50));
    }
  }
  return worst;
};

const errorOf = (name: string, panel: readonly Path[], width: number): number => {
  if (name === 'bezier-js') return looseError(panel, width);
  if (name === 'staywright') return apartFrom(panel, width, [offsetOutline(wide(panel, width)).flatMap(pointsOf)]);
  const polygon = stubbedPolygon(panel, FLATNESS);
  const rings = name === 'jsts' ? jstsOffset(polygon, width) : clipperOffset(polygon, width);
  return apartFrom(
    panel,
    width,
    rings.map((ring) => [...ring, ring[0]!]),
  );
};

const attempt = <T>(make: () => T): T | undefined => {
  try {
    return make();
  } catch {
    return undefined;
  }
};

/** The least time of one call, in ms, of each of several tasks run in turn. */
const timesOf = (tasks: readonly (() => unknown)[]): number[] => {
  const least = tasks.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const [i, task] of tasks.entries()) {
      let calls = 0;
      const began = performance.now();
      let spent = 0;
      do {
        task();
        calls += 1;
        spent = performance.now() - began;
      } while (spent < ROUND_MS);
      if (round > 0 || spent > 10 * ROUND_MS) least[i] = Math.min(least[i]!, spent / calls);
    }
  }
  return least;
};

const cell = (text: string, width: number): string => text.padStart(width);

const finer = (panel: readonly Path[], times: number): Path[] =>
  panel.map(({ segments }) => ({
    segments: segments.flatMap((s) =>
      Array.from({ length: times }, (_, i) => subSegment(s, i / times, (i + 1) / times)),
    ),
  }));

const panels = [
  ['ordinary panel', ordinaryPanel(), [15, -15, 25]],
  ['waist and bust', bustPanel(), [15, -15, 40]],
  ['spike of 20 deg', spike(), [15, -15]],
  ['concave corner', notched(), [15, -15]],
] as const;

console.log('panel             width  what          error mm   nodes  (in)      ms   times ours');
for (const [title, panel, widths] of panels) {
  const given = panel.reduce((sum, path) => sum + path.segments.length, 0);
  for (const width of widths) {
    const tasks = peers.map((peer) => peer.make(panel, width));
    const times = timesOf(tasks);
    for (const [i, peer] of peers.entries()) {
      const error = attempt(() => errorOf(peer.name, panel, width)) ?? Number.NaN;
      console.log(
        title.padEnd(17) +
          cell(String(width), 6) +
          '  ' +
          peer.name.padEnd(12) +
          cell(error.toFixed(4), 10) +
          cell(String(tasks[i]!().nodes), 8) +
          cell(`(${given})`, 6) +
          cell(times[i]!.toFixed(3), 9) +
          cell((times[i]! / times[0]!).toFixed(2), 10),
      );
    }
  }
}

console.log('\nnodes   what            15 mm: ms   times 1x      -15 mm: ms   times 1x   times ours');
const base = new Map<string, number>();
for (const times of [1, 10, 100]) {
  const panel = finer(ordinaryPanel(), times);
  const spent = [15, -15].map((width) => timesOf(peers.map((peer) => peer.make(panel, width))));
  for (const [i, peer] of peers.entries()) {
    const figures = spent.map((list, k) => {
      const key = `${peer.name} ${k}`;
      if (times === 1) base.set(key, list[i]!);
      return cell(list[i]!.toFixed(3), 12) + cell((list[i]! / base.get(key)!).toFixed(1), 11);
    });
    const ratio = Math.min(...spent.map((list) => list[i]! / list[0]!));
    console.log(
      `${cell(`${times}x`, 5)}   ${peer.name.padEnd(12)}${figures.join('     ')}${cell(ratio.toFixed(2), 13)}`,
    );
  }
}
