/** What is traced gets names, and scans stand side by side. */
import { describe, expect, it } from 'vitest';
import { nameTraced } from '../../src/commands/name-traced.ts';
import { pathBox } from '../../src/geometry/box.ts';
import { IDENTITY } from '../../src/geometry/matrix.ts';
import type { Path } from '../../src/geometry/path.ts';
import { point } from '../../src/geometry/point.ts';
import { line, type Line } from '../../src/geometry/segment.ts';
import type { Traced, TracedPanel } from '../../src/scan/traced.ts';
import { polygon } from '../support/shapes.ts';

/** A rectangle with as many lines right across as are asked for, a notch in its left side, a grainline, a line within and a stroke. */
const panel = (x: number, y: number, width: number, height: number, across = 1): TracedPanel => ({
  outline: rectangle(x, y, width, height),
  within: [rectangle(x + 2, y + 2, width - 4, height - 4)],
  corners: [],
  unseen: [],
  marks: {
    across: Array.from({ length: across }, (_, at) =>
      line(point(x, y + 9 * (at + 1)), point(x + width, y + 9 * (at + 1))),
    ),
    notches: [line(point(x, y + 5), point(x + 4, y + 5))],
    grain: [line(point(x + 6, y + 3), point(x + 6, y + height - 3))],
    art: [{ segments: [line(point(x + 1, y + 1), point(x + 3, y + 1))] }],
  },
  spread: 0,
  bridged: 0,
});

const rectangle = (x: number, y: number, width: number, height: number): Path =>
  polygon([x, y], [x + width, y], [x + width, y + height], [x, y + height]);

const scan = (...panels: TracedPanel[]): Traced => ({
  kind: 'line',
  scale: { how: 'dpi', toMm: IDENTITY, dpi: { x: 300, y: 300 }, turn: 0, shear: 0 },
  panels,
  findings: [],
});

const namesOf = (across: number, levels?: readonly string[]): { names: string[]; findings: readonly unknown[] } => {
  const { drawn, findings } = nameTraced([scan(panel(10, 20, 30, 60, across))], levels);
  return { names: drawn[0]!.levels.map(({ name }) => name), findings };
};

const startOf = (one: Line): number[] => [one.start.x, one.start.y];

describe('names', () => {
  it('of panels run on through all scans', () => {
    const { drawn } = nameTraced(
      [scan(panel(0, 0, 30, 60), panel(40, 0, 30, 60)), scan(panel(5, 5, 30, 60))],
      undefined,
    );
    expect(drawn.map(({ id }) => id)).toEqual(['panel-1', 'panel-2', 'panel-3']);
  });

  it('of lines right across: one alone is the waist', () => {
    expect(namesOf(0)).toEqual({ names: [], findings: [] });
    expect(namesOf(1)).toEqual({ names: ['waist'], findings: [] });
  });

  it('of lines right across are as typed, from the top down, where there are as many', () => {
    expect(namesOf(2, ['bust', 'waist'])).toEqual({ names: ['bust', 'waist'], findings: [] });
    expect(namesOf(1, ['hip'])).toEqual({ names: ['hip'], findings: [] });
  });

  it('of several lines are numbers until they are named, and that is said', () => {
    const { names, findings } = namesOf(3);
    expect(names).toEqual(['line-1', 'line-2', 'line-3']);
    expect(findings).toMatchObject([
      {
        weight: 'warning',
        kind: 'lines-not-named',
        where: 'panel-1',
        cure: 'name them from the top down: --level bust,waist',
      },
    ]);
  });

  it('that are too many or too few are not used, and that is said once for all panels alike', () => {
    const { drawn, findings } = nameTraced(
      [scan(panel(0, 0, 30, 60, 1), panel(40, 0, 30, 60, 2), panel(80, 0, 30, 60, 1), panel(120, 0, 30, 60, 0))],
      ['bust', 'waist'],
    );
    expect(drawn.map(({ levels }) => levels.map(({ name }) => name))).toEqual([
      ['line-1'],
      ['bust', 'waist'],
      ['line-1'],
      [],
    ]);
    expect(findings.map(({ where, message }) => [where, message])).toEqual([
      ['panel-1, panel-3', '1 line right across each, called line-1 and so on'],
      ['panel-4', 'no line right across was found'],
    ]);
  });
});

describe('places', () => {
  it('in one scan alone stay as they are', () => {
    const { drawn } = nameTraced([scan(panel(10, 20, 30, 60))], undefined);
    expect(pathBox(drawn[0]!.outlines[0]!)).toEqual({ minX: 10, minY: 20, maxX: 40, maxY: 80 });
  });

  it('of several scans lie side by side, 20 mm apart, tops level, and marks go with their panels', () => {
    const { drawn } = nameTraced(
      [scan(panel(10, 20, 30, 60), panel(50, 40, 10, 60)), scan(panel(-300, 70, 30, 60)), scan(panel(1000, -5, 8, 9))],
      undefined,
    );
    expect(drawn.map(({ outlines }) => pathBox(outlines[0]!))).toEqual([
      { minX: 0, minY: 0, maxX: 30, maxY: 60 },
      { minX: 40, minY: 20, maxX: 50, maxY: 80 },
      { minX: 70, minY: 0, maxX: 100, maxY: 60 },
      { minX: 120, minY: 0, maxX: 128, maxY: 9 },
    ]);
    const third = drawn[2]!;
    expect(pathBox(third.outlines[1]!)).toEqual({ minX: 72, minY: 2, maxX: 98, maxY: 58 });
    expect(startOf(third.levels[0]!.line)).toEqual([70, 9]);
    expect(startOf(third.notches[0]!)).toEqual([70, 5]);
    expect(startOf(third.grain[0]!)).toEqual([76, 3]);
    expect(startOf(third.art[0]!.segments[0] as Line)).toEqual([71, 1]);
  });
});
