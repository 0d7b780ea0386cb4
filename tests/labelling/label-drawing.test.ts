import { describe, expect, it } from 'vitest';
import { labelDrawing } from '../../src/labelling/label-drawing.ts';
import { answers, box, drawing, open, outline, stroke } from './drawn.ts';

describe('label', () => {
  it('names outlines from left to right, parts them into edges and places their waist at 0', () => {
    const plain = drawing(
      [outline(box(200, 20, 90, 300)), outline(box(50, 10, 80, 320))],
      [stroke(open([40, 150], [300, 150]), 'waist')],
    );
    const { pattern, findings } = labelDrawing(plain, answers());
    expect(findings.map((finding) => finding.kind)).toEqual(['mates-differ', 'mates-differ']);
    expect(pattern.panels.map(({ name }) => name)).toEqual(['front', 'back']);
    expect(pattern.panels.map((panel) => panel.edges.map((edge) => edge.name))).toEqual([
      ['top', 'side', 'bottom', 'cf'],
      ['top', 'cb', 'bottom', 'side'],
    ]);
    const [front, back] = pattern.panels;
    expect(front!.levels).toEqual([{ name: 'waist', y: 0, fromX: 0, toX: 80 }]);
    expect(front!.edges[0]!.path).toEqual(open([0, -140], [80, -140]));
    expect(back!.edges[1]!.path).toEqual(open([90, -130], [90, 170]));
  });
});
