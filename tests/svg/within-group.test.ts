import { describe, expect, it } from 'vitest';
import { pathBox } from '../../src/geometry/box.ts';
import type { Drawing } from '../../src/pattern/drawing.ts';
import { readSvg, type DrawingChoice } from '../../src/svg/read-svg.ts';

const nest = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:draw="urn:some-program" width="400mm" height="400mm" viewBox="0 0 400 400">
  <defs><path id="arrow" d="M0 0v80" stroke="#000"/></defs>
  <rect id="test-square" x="300" y="10" width="50" height="50"/>
  <g transform="translate(10 20)">
    <path id="mark" d="M0 0h4" stroke="#000"/>
    <g id="size-1"><rect width="100" height="200"/></g>
    <g id="size-2" draw:label="medium" transform="scale(2)">
      <rect x="5" width="60" height="110"/>
      <use class="grain" href="#arrow" x="30" y="10"/>
      <use class="notch" href="#mark" x="5" y="40"/>
    </g>
  </g>
</svg>`;

const drawingOf = (choice: DrawingChoice, text = nest): Drawing => {
  const reading = readSvg(text, 'nest.svg', choice);
  if (reading.kind !== 'drawing') throw new Error('this is no plain drawing');
  return reading.drawing;
};

describe('one group out of a nest', () => {
  it('is all that is read, with the transforms round it', () => {
    const { outlines } = drawingOf({ within: 'size-2' });
    expect(outlines.map(({ path }) => pathBox(path))).toEqual([{ minX: 20, minY: 20, maxX: 140, maxY: 240 }]);
  });

  it('may use what is defined or drawn beside it', () => {
    const { strokes } = drawingOf({ within: 'size-2' });
    expect(strokes.map(({ names, path }) => [names[0], pathBox(path)])).toEqual([
      ['arrow', { minX: 70, minY: 40, maxX: 70, maxY: 200 }],
      ['mark', { minX: 20, minY: 100, maxX: 28, maxY: 100 }],
    ]);
  });

  it('is also known by the label that its program gave it', () => {
    expect(drawingOf({ within: 'medium' })).toEqual(drawingOf({ within: 'size-2' }));
  });

  it('is scaled by a test square that lies outside it', () => {
    const { outlines } = drawingOf({ within: 'size-1', testSquare: 100 });
    expect(outlines.map(({ path }) => pathBox(path))).toEqual([{ minX: 20, minY: 40, maxX: 220, maxY: 440 }]);
  });

  it('is asked for again where no group has the name, with the nearest one', () => {
    expect(() => drawingOf({ within: 'size-3' })).toThrow(
      expect.objectContaining({ code: 'usage', where: '--within', hint: 'did you mean size-1?' }),
    );
  });

  it('is refused where two groups have the name', () => {
    const twice = nest.replace('id="size-1"', 'id="size-2"');
    expect(() => drawingOf({ within: 'size-2' }, twice)).toThrow("two groups are called 'size-2'");
  });
});
