import { describe, expect, it } from 'vitest';
import { appendChange } from '../../src/record/append-change.ts';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { boxPattern } from '../support/box-pattern.ts';

const withPanel = (pattern: Pattern, change: (panel: Panel) => Panel): Pattern => ({
  ...pattern,
  panels: pattern.panels.map((panel, at) => (at === 0 ? change(panel) : panel)),
});

describe('the hash of the geometry', () => {
  const pattern = boxPattern(2);
  const hash = hashGeometry(pattern);

  it('is SHA-256 in hex, the same each time', () => {
    expect(hash).toMatch(/^[0-9a-f]{64}$/);
    expect(hashGeometry(structuredClone(pattern))).toBe(hash);
  });

  it.each<[string, (panel: Panel) => Panel]>([
    ['a level', (panel) => ({ ...panel, levels: panel.levels.map((level) => ({ ...level, y: level.y + 0.001 })) })],
    [
      'a notch',
      (panel) => ({ ...panel, notches: panel.notches.map((notch) => ({ ...notch, inner: { x: 70, y: 60 } })) }),
    ],
    ['the grain', (panel) => ({ ...panel, grain: { from: { x: 41, y: -100 }, to: { x: 40, y: 100 } } })],
    [
      'the name of a seam',
      (panel) => ({ ...panel, edges: panel.edges.map((edge) => ({ ...edge, name: `${edge.name}x` })) }),
    ],
  ])('changes with %s', (_, change) => {
    expect(hashGeometry(withPanel(pattern, change))).not.toBe(hash);
  });

  it.each<[string, (panel: Panel) => Panel]>([
    ['artwork', (panel) => ({ ...panel, art: '<text>x</text>' })],
    ['allowance', (panel) => ({ ...panel, edges: panel.edges.map((edge) => ({ ...edge, allowance: 15 })) })],
    [
      'less than half a micron',
      (panel) => ({ ...panel, levels: panel.levels.map((level) => ({ ...level, y: level.y + 0.0004 })) }),
    ],
    ['the sign of zero', (panel) => ({ ...panel, levels: panel.levels.map((level) => ({ ...level, fromX: -0 })) })],
  ])('does not change with %s', (_, change) => {
    expect(hashGeometry(withPanel(pattern, change))).toBe(hash);
  });

  it('changes with the order of the panels', () => {
    expect(hashGeometry({ ...pattern, panels: pattern.panels.toReversed() })).not.toBe(hash);
  });
});

describe('the record', () => {
  it('gains one line, and begins with nothing before', () => {
    const after = boxPattern(1);
    const first = appendChange([], { command: 'label', version: '1.0.0', after, girths: {} });
    const second = appendChange(first, { command: 'check', version: '1.0.0', before: after, after, girths: {} });
    expect(first).toEqual([
      { command: 'label', version: '1.0.0', step: 1, before: null, after: hashGeometry(after), girth_mm: {} },
    ]);
    expect(second).toHaveLength(2);
    expect(second[1]!.before).toBe(second[0]!.after);
  });
});
