import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { panelEdges } from '../../examples/drawing/cutting-line.js';
import { drawPattern } from '../../examples/drawing/make-pattern.js';
import { ALLOWANCE, LEVELS, netPanels, seamLength, SIZES, type Size } from '../../examples/drawing/net-panels.js';

const file = new URL('../../examples/drawn-pattern.svg', import.meta.url);

const girthAt = (size: Size, level: string): number => {
  const height = LEVELS[level]!;
  return 2 * netPanels(size).reduce((sum, panel) => sum + panel.back(height).x - panel.front(height).x, 0);
};

describe('the drawn pattern', () => {
  it('is what its source draws', () => {
    expect(readFileSync(file, 'utf8')).toBe(drawPattern());
  });

  it('grows two inches round the body from size to size at every level', () => {
    for (const level of ['bust', 'underbust', 'waist', 'high-hip']) {
      const [small, middle, large] = SIZES.map((size) => girthAt(size, level));
      expect(middle! - small!).toBeCloseTo(50.8, 6);
      expect(large! - middle!).toBeCloseTo(50.8, 6);
    }
    expect(girthAt(SIZES[1]!, 'waist')).toBeCloseTo(598, 6);
  });

  it.each(SIZES)('has net seams that match their neighbours above and below the waist, size $number', (size) => {
    const panels = netPanels(size);
    panels.slice(1).forEach((panel, i) => {
      const mate = panels[i]!;
      for (const end of ['top', 'bottom'] as const) {
        const there = seamLength(mate.back, 0, mate.backEnds[end]);
        expect(seamLength(panel.front, 0, panel.frontEnds[end])).toBeCloseTo(there, 6);
      }
    });
  });

  it('has its cutting line 5/8 in from the net line, measured densely', () => {
    for (const panel of netPanels(SIZES[1]!)) {
      const net = panelEdges(panel, 0).map(dense);
      panelEdges(panel, ALLOWANCE)
        .map(dense)
        .forEach((cutting, edge) => {
          for (const point of cutting.filter((_, i) => i % 40 === 0)) {
            const nearest = Math.min(...net[edge]!.map(([x, y]) => Math.hypot(x! - point[0]!, y! - point[1]!)));
            expect(nearest).toBeCloseTo(ALLOWANCE, 2);
          }
        });
    }
  });
});

const dense = (edge: ReturnType<typeof panelEdges>[number]): number[][] =>
  edge.flatMap((cubic) =>
    Array.from({ length: 400 }, (_, i) => {
      const u = i / 399;
      const weights = [(1 - u) ** 3, 3 * u * (1 - u) ** 2, 3 * u * u * (1 - u), u ** 3];
      return [0, 1].map((axis) => weights.reduce((sum, weight, k) => sum + weight * cubic[k]![axis as 0 | 1], 0));
    }),
  );
