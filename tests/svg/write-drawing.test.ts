import { describe, expect, it } from 'vitest';
import { isClosed } from '../../src/geometry/path.ts';
import { roundPoint } from '../../src/geometry/round-path.ts';
import { line } from '../../src/geometry/segment.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import { writeDrawing, type DrawnPanel } from '../../src/svg/write-drawing.ts';

const at = (x: number, y: number) => ({ x, y });

const box = (x: number, y: number, width: number, height: number) => ({
  segments: [
    line(at(x, y), at(x + width, y)),
    line(at(x + width, y), at(x + width, y + height)),
    line(at(x + width, y + height), at(x, y + height)),
    line(at(x, y + height), at(x, y)),
  ],
});

const ring = { segments: [line(at(20, 20), at(40, 20)), line(at(40, 20), at(30, 40)), line(at(30, 40), at(20, 20))] };

const panel: DrawnPanel = {
  id: 'panel-1',
  outlines: [box(-5, 0, 80, 200)],
  levels: [{ name: 'waist', line: line(at(-5, 120), at(75, 120)) }],
  notches: [line(at(75, 50), at(69, 50))],
  grain: [line(at(30, 30), at(30, 170))],
  art: [ring, { segments: [line(at(-5, 60), at(0, 60))] }],
};

const read = (text: string) => {
  const reading = readSvg(text, 'traced.svg', {});
  if (reading.kind !== 'drawing') throw new Error('a sheet');
  return reading.drawing;
};

describe('writeDrawing', () => {
  it('writes what the reader takes for the same outlines and marks', () => {
    const drawing = read(writeDrawing('traced', [panel]));
    expect(drawing.outlines.map(({ id }) => id)).toEqual(['panel-1']);
    const [outline] = drawing.outlines;
    expect(isClosed(outline!.path)).toBe(true);
    expect(outline!.path.segments.map(({ start }) => roundPoint(start))).toEqual([
      at(10, 10),
      at(90, 10),
      at(90, 210),
      at(10, 210),
    ]);
    expect(drawing.strokes.map(({ names }) => names[0])).toEqual(['waist', undefined, 'grain']);
    expect(drawing.warnings).toEqual([]);
  });

  it('keeps art from being taken for outlines, notches or levels, and places it', () => {
    const drawing = read(writeDrawing('traced', [panel]));
    expect(drawing.strokes).toHaveLength(3);
    expect(drawing.artwork).toHaveLength(1);
    expect(roundPoint(drawing.artwork[0]!.at)).toEqual(at(35, 30));
    expect(drawing.artwork[0]!.markup.match(/<path/g)).toHaveLength(2);
  });

  it('moves everything onto the page', () => {
    const text = writeDrawing('traced', [panel, { ...panel, id: 'panel-2', outlines: [box(100, -30, 50, 50)] }]);
    expect(text).toContain('width="175mm" height="250mm" viewBox="0 0 175 250"');
    expect(text).toContain('data-drawing="1"');
  });
});
