/** The score by which traces are judged, on traces whose errors are known. */
import { describe, expect, it } from 'vitest';
import { compose, rotation, translation } from '../../src/geometry/matrix.ts';
import type { Path } from '../../src/geometry/path.ts';
import { distance, type Point } from '../../src/geometry/point.ts';
import { cubic, line, type Segment } from '../../src/geometry/segment.ts';
import { transformPath, transformPoint } from '../../src/geometry/transform-path.ts';
import type { TracedPanel } from '../../src/scan/traced.ts';
import { fullSheet } from '../support/scans/cases.ts';
import { truthOf, type TruePanel, type Truth } from '../support/scans/lay-out.ts';
import { scoreTable } from '../support/scans/score-table.ts';
import { scoreTrace } from '../support/scans/score-trace.ts';

const asTraced = (p: TruePanel): TracedPanel => ({
  outline: p.outline,
  corners: p.corners,
  unseen: [],
  within: [],
  marks: { notches: p.notches, grain: p.grain, across: p.across, art: [] },
  spread: 0,
  bridged: 0,
});

const moved = (p: TracedPanel, m: Parameters<typeof transformPath>[1]): TracedPanel => {
  const lines = (all: TracedPanel['marks']['grain']) =>
    all.map((l) => line(transformPoint(l.start, m), transformPoint(l.end, m)));
  return {
    ...p,
    outline: transformPath(p.outline, m),
    corners: p.corners.map((q) => transformPoint(q, m)),
    marks: { notches: lines(p.marks.notches), grain: lines(p.marks.grain), across: lines(p.marks.across), art: [] },
  };
};

describe('the score of a trace', () => {
  const truth: Truth = truthOf({ kind: 'line', dpi: 10, ...fullSheet() });

  it('is nothing for the truth turned and shifted', () => {
    const m = compose(translation(31, -17), rotation(0.07));
    const score = scoreTrace(truth.panels.map((p) => moved(asTraced(p), m)).toReversed(), truth);
    expect(score.panels.map(({ name }) => name)).toEqual(truth.panels.map(({ name }) => name));
    for (const value of [score.rms, score.max, score.corner, score.notch, score.grain, score.waist]) {
      expect(value).toBeLessThan(3e-5);
    }
    expect([score.missedCorners, score.inventedCorners, score.doubledCorners]).toEqual([0, 0, 0]);
    expect([score.missing.length, score.extra, score.missedMarks, score.inventedMarks]).toEqual([0, 0, 0, 0]);
    expect(score.segments).toBe(7);
  });

  it('sees a size that is off by a thousandth, which no motion mends', () => {
    const large = truth.panels.map((p) => moved(asTraced(p), { a: 1.001, b: 0, c: 0, d: 1.001, e: 0, f: 0 }));
    const { max } = scoreTrace(large, truth);
    // The front is 118 mm high: its ends move by about 0.059 against its middle.
    expect(max).toBeGreaterThan(0.05);
    expect(max).toBeLessThan(0.075);
  });

  it('finds a bump of 0.05 mm', () => {
    const front = truth.panels[0]!;
    const segments: Segment[] = front.outline.segments.flatMap((s, i): Segment[] => {
      if (i !== 6) return [s];
      // The straight front, bowed out by 0.05 over 8 mm of its length.
      const u = { x: (s.end.x - s.start.x) / 111, y: (s.end.y - s.start.y) / 111 };
      const at = (along: number, out: number): Point => ({
        x: s.start.x + along * u.x + out * u.y,
        y: s.start.y + along * u.y - out * u.x,
      });
      return [
        line(s.start, at(50, 0)),
        cubic(at(50, 0), at(52, 0), at(52, 0.05), at(54, 0.05)),
        cubic(at(54, 0.05), at(56, 0.05), at(56, 0), at(58, 0)),
        line(at(58, 0), s.end),
      ];
    });
    const traced = [{ ...asTraced(front), outline: { segments } }, ...truth.panels.slice(1).map(asTraced)];
    const score = scoreTrace(traced, truth);
    expect(score.max).toBeCloseTo(0.05, 2);
    expect(Math.abs(score.max - 0.05)).toBeLessThan(0.002);
    expect(distance(score.panels[0]!.worstAt, front.outline.segments[6]!.start)).toBeCloseTo(54, 0);
    expect(score.inventedCorners).toBe(0);
  });

  it('counts a corner that was rounded, one that was made up, one that was cut off, and where a corner went', () => {
    const side = truth.panels[2]!;
    const nodes = side.outline.segments;
    const lower = { x: nodes[0]!.end.x, y: nodes[0]!.end.y + 0.2 };
    const off = scoreTrace(
      [
        {
          ...asTraced(side),
          outline: {
            segments: nodes.map((n, i) => (i === 0 ? line(n.start, lower) : i === 1 ? line(lower, n.end) : n)),
          },
        },
      ],
      truth,
    );
    expect(off.corner).toBeGreaterThan(0.15);
    expect(off.corner).toBeLessThan(0.22);
    expect(off.missing).toHaveLength(3);
    const chamfer: Path = {
      segments: nodes.flatMap((s, i): Segment[] => {
        if (i === 0) return [line(s.start, back(s, 0.4))];
        if (i === 1) return [line(back(nodes[0]!, 0.4), on(s, 0.4)), line(on(s, 0.4), s.end)];
        return [s];
      }),
    };
    const doubled = scoreTrace([{ ...asTraced(side), outline: chamfer }], truth);
    expect([doubled.missedCorners, doubled.inventedCorners, doubled.doubledCorners]).toEqual([0, 0, 1]);
    const far: Path = {
      segments: nodes.flatMap((s, i): Segment[] => {
        if (i === 0) return [line(s.start, back(s, 1.5))];
        if (i === 1) return [line(back(nodes[0]!, 1.5), on(s, 1.5)), line(on(s, 1.5), s.end)];
        return [s];
      }),
    };
    const invented = scoreTrace([{ ...asTraced(side), outline: far }, ...truth.panels.map(asTraced)], truth);
    expect(invented.extra).toBe(1);
    const alone = scoreTrace([{ ...asTraced(side), outline: far }], truth);
    expect([alone.missedCorners, alone.inventedCorners]).toEqual([1, 2]);
  });

  it('measures marks by their ends and counts those missed and made up', () => {
    const traced = truth.panels.map(asTraced);
    const first = traced[0]!;
    const { marks } = first;
    const grain = marks.grain.map((l) => line(l.end, { x: l.start.x + 0.3, y: l.start.y }));
    const notches = marks.notches.slice(1);
    const across = [...marks.across, line({ x: 12, y: 20 }, { x: 40, y: 22 })];
    const score = scoreTrace([{ ...first, marks: { notches, grain, across, art: [] } }, ...traced.slice(1)], truth);
    expect(score.grain).toBeCloseTo(0.3, 4);
    expect(score.notch).toBeLessThan(1e-4);
    expect([score.missedMarks, score.inventedMarks]).toEqual([1, 1]);
  });

  it('prints as a table that names the goals missed', () => {
    const score = scoreTrace(truth.panels.map(asTraced), truth);
    const table = scoreTable([
      { name: 'line 300', score, goal: { rms: 0.008, max: 0.03, corner: 0.03 }, seconds: 1.234 },
      { name: 'off', score: { ...score, max: 0.05 }, goal: { rms: 0.008, max: 0.03, corner: 0.03 } },
    ]);
    const lines = table.split('\n');
    expect(lines).toHaveLength(3);
    expect(lines[1]).not.toContain('!');
    expect(lines[2]).toContain('0.0500!  (0.030)');
  });
});

const on = (s: Segment, length: number): Point => {
  const t = length / distance(s.start, s.end);
  return { x: s.start.x + t * (s.end.x - s.start.x), y: s.start.y + t * (s.end.y - s.start.y) };
};
const back = (s: Segment, length: number): Point => on({ ...s, start: s.end, end: s.start } as Segment, length);
