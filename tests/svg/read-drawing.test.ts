import { describe, expect, it } from 'vitest';
import { signedArea } from '../../src/geometry/area.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { pathBox } from '../../src/geometry/box.ts';
import { isClosed, pathEnd, pathStart } from '../../src/geometry/path.ts';
import type { Outline } from '../../src/pattern/drawing.ts';
import { complaintOf, drawingOf, millimetres } from './drawn-svg.ts';

const boxOf = ({ path }: Pick<Outline, 'path'>): number[] => {
  const { minX, minY, maxX, maxY } = pathBox(path);
  return [minX, minY, maxX, maxY].map((v) => Math.round(v * 1e6) / 1e6);
};
const boxes = (content: string): number[][] => drawingOf(millimetres(content)).outlines.map(boxOf);

const side = (attributes: string): number[] =>
  boxOf(drawingOf(`<svg ${attributes} viewBox="0 0 100 200"><rect width="100" height="200"/></svg>`).outlines[0]!);

describe('shapes', () => {
  it('are outlines that close exactly and run clockwise, whichever way they were drawn', () => {
    const { outlines } = drawingOf(
      millimetres(`
        <path d="M0 0H100V50H0Z"/><path d="M0 0V50H100V0Z"/><path d="m 0 0 l 0.1 0.2 0.3 99.7 99 0.05 Z"/>
        <polygon points="0,0 0,80 80,80"/><rect width="30" height="40"/><rect width="60" height="40" rx="10"/>
        <circle cx="100" cy="100" r="40"/><ellipse cx="100" cy="100" rx="60" ry="30"/>
        <path transform="scale(-1 1)" d="M-100 0H-200V50H-100Z"/>`),
    );
    expect(outlines.length).toBe(9);
    for (const { path } of outlines) {
      expect(isClosed(path)).toBe(true);
      expect(signedArea(path)).toBeGreaterThan(0);
    }
  });

  it('have the areas that geometry gives them', () => {
    const { outlines } = drawingOf(
      millimetres('<rect width="60" height="40" rx="10" ry="5"/><circle r="100"/><ellipse rx="60" ry="30"/>'),
    );
    const [rect, circle, ellipse] = outlines.map(({ path }) => signedArea(path));
    expect(rect).toBeCloseTo(60 * 40 - (4 - Math.PI) * 10 * 5, 2);
    expect(circle! / (Math.PI * 100 ** 2)).toBeCloseTo(1, 5);
    expect(ellipse! / (Math.PI * 60 * 30)).toBeCloseTo(1, 5);
  });

  it('read radii of rectangles as SVG does: one for both, none over half a side', () => {
    expect(boxes('<rect x="5" y="6" width="60" height="40" ry="100"/>')).toEqual([[5, 6, 65, 46]]);
    const { outlines } = drawingOf(millimetres('<rect width="60" height="40" ry="100"/>'));
    // A radius of 100 alone counts for both: 30 by 20 at most, so an ellipse.
    expect(signedArea(outlines[0]!.path)).toBeCloseTo(Math.PI * 30 * 20, 1);
  });

  it('draw nothing without a size, and nothing for empty data', () => {
    const { outlines, strokes } = drawingOf(
      millimetres(
        '<rect width="0" height="9"/><circle/><ellipse rx="3" ry="-1"/><polygon points=""/><path/><path d=""/><path d="M3 3"/><line/>',
      ),
    );
    expect([...outlines, ...strokes]).toEqual([]);
  });

  it('keep several pieces of one path apart', () => {
    const { outlines, strokes } = drawingOf(
      millimetres('<path id="front" d="M0 0h50v50h-50z m10 10 h8 M60 0h50v50h-50z"/>'),
    );
    expect(outlines.map(boxOf)).toEqual([
      [0, 0, 50, 50],
      [60, 0, 110, 50],
    ]);
    expect(outlines.map(({ id }) => id)).toEqual(['front', 'front']);
    expect(pathLength(strokes[0]!.path)).toBeCloseTo(8, 9);
  });

  it('become lines where a curve is exactly straight, and stay curves where it is not', () => {
    const { outlines } = drawingOf(millimetres('<path d="M0 0C10 0 20 0 90 0 90 30 90 60 91 90Q50 90 0 90.001Z"/>'));
    expect(outlines[0]!.path.segments.map(({ kind }) => kind)).toEqual(['line', 'cubic', 'cubic', 'line']);
  });

  it('drawn there and back on one line are strokes, not outlines', () => {
    const { outlines, strokes } = drawingOf(millimetres('<path d="M10 10 L18 10 Z"/><path d="M10 30 L40 40 L10 30"/>'));
    expect(outlines).toEqual([]);
    expect(strokes.map(({ path }) => pathLength(path)).map(Math.round)).toEqual([8, 63]);
  });
});

describe('sizes', () => {
  it('count 96 px to the inch without units, and say so', () => {
    const { outlines, warnings } = drawingOf(
      '<svg xmlns="http://www.w3.org/2000/svg"><rect width="96" height="192"/></svg>',
    );
    expect(boxOf(outlines[0]!)).toEqual([0, 0, 25.4, 50.8]);
    expect(warnings[0]).toMatch(/no size in mm or inches, so 96 px are taken for an inch/);
  });

  it('follow a viewBox with one side given, or none', () => {
    expect(side('width="50mm"')).toEqual([0, 0, 50, 100]);
    expect(side('height="50mm"')).toEqual([0, 0, 25, 50]);
    expect(side('width="100%"')).toEqual([0, 0, 26.458333, 52.916667]);
  });

  it('in percent are of the nearest viewport', () => {
    expect(
      boxes(
        '<rect width="10%" height="5%"/><svg x="100" y="10%" width="200" height="200" viewBox="0 0 50 50"><rect width="50%" height="2"/></svg>',
      ),
    ).toEqual([
      [0, 0, 100, 50],
      [100, 100, 200, 108],
    ]);
  });

  it('warn where the page stretches the drawing', () => {
    const svg =
      '<svg width="100mm" height="100mm" viewBox="0 0 100 50" preserveAspectRatio="none"><rect width="40" height="40"/></svg>';
    const { outlines, warnings } = drawingOf(svg);
    expect(boxOf(outlines[0]!)).toEqual([0, 0, 40, 80]);
    expect(warnings[0]).toMatch(/stretched/);
  });

  it('of a panel that nobody could wear ask about the scale', () => {
    const { warnings } = drawingOf(
      millimetres(
        '<rect id="tiny" width="15" height="19"/><rect width="9" height="2600"/><rect width="21" height="2400"/>',
      ),
    );
    expect(warnings.map((text) => text.replace(/^drawn.svg:1:\d+: /, ''))).toEqual([
      'outline tiny is 19.0 mm across: is the scale right? correct it with --scale or --test-square',
      'an outline is 2.60 m across: is the scale right? correct it with --scale or --test-square',
    ]);
  });

  it('over 100 m and numbers that are not finite are refused', () => {
    expect(complaintOf(() => drawingOf(millimetres('<rect id="a" width="200000" height="9"/>')))).toMatch(
      /^input: drawn\.svg:1:\d+: outline a is 200 m across$/,
    );
    expect(complaintOf(() => drawingOf(millimetres('<path d="M0 0 L1e999 0"/>')))).toMatch(
      /^input: drawn\.svg:1:\d+: path data has a number that is not finite: 1e999$/,
    );
    expect(complaintOf(() => drawingOf(millimetres('<path d="M1e308 0 l1e308 1e308"/>')))).toMatch(
      /<path> reaches over 100 km$/,
    );
    expect(
      complaintOf(() => drawingOf(millimetres('<g transform="scale(1e308)"><rect width="9e9" height="1"/></g>'))),
    ).toMatch(/<rect> reaches over 100 km$/);
  });

  it('of 0 for the whole page are refused', () => {
    expect(complaintOf(() => drawingOf('<svg width="0"/>'))).toBe('input: drawn.svg:1:1: the drawing has a width of 0');
  });
});

describe('groups and copies', () => {
  it('are placed by every transform on the way', () => {
    expect(
      boxes(
        '<g transform="translate(100 0)"><g transform="rotate(90)"><rect width="30" height="20" transform="scale(2)"/></g></g>',
      ),
    ).toEqual([[60, 0, 100, 60]]);
    expect(boxes('<g style="transform: translate(5px, 6px)"><rect width="30" height="20"/></g>')).toEqual([
      [5, 6, 35, 26],
    ]);
  });

  it('use draws shapes, groups, symbols and drawings, with ids of its own', () => {
    const { outlines } = drawingOf(
      millimetres(`
      <defs><rect id="r" width="30" height="20"/><g id="two"><rect width="25" height="25"/><circle id="c" r="15"/></g></defs>
      <symbol id="s" viewBox="0 0 10 10"><rect width="10" height="5"/></symbol>
      <use id="front" href="#r" x="100" y="10"/><use xlink:href="#r" transform="scale(2)"/>
      <use id="side" href="#s" width="100" height="100" x="300"/><use id="pair" href="#two"/>`),
    );
    expect(outlines.map(({ id }) => id)).toEqual(['front', undefined, 'side', 'pair', 'pair']);
    expect(outlines.slice(0, 3).map(boxOf)).toEqual([
      [100, 10, 130, 30],
      [0, 0, 60, 40],
      [300, 0, 400, 50],
    ]);
  });

  it('that use themselves are refused', () => {
    const complaint = complaintOf(() =>
      drawingOf(millimetres('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>')),
    );
    expect(complaint).toMatch(/^input: drawn\.svg:1:\d+: 'use' of '#.' leads back to itself$/);
  });

  it('that grow by tens with every step are refused', () => {
    const steps = Array.from({ length: 9 }, (_, i) => `<g id="g${i + 1}">${`<use href="#g${i}"/>`.repeat(10)}</g>`);
    const svg = millimetres(`<defs><rect id="g0" width="9" height="9"/>${steps.join('')}</defs><use href="#g9"/>`);
    expect(complaintOf(() => drawingOf(svg))).toMatch(/^input: drawn\.svg:1:\d+: 'use' draws over 100000 elements$/);
  });

  it('of things outside the drawing are left out and named', () => {
    const { warnings } = drawingOf(millimetres('<use href="other.svg#a"/><use href="#gone"/>'));
    expect(warnings.map((text) => text.replace(/^.*?: /, ''))).toEqual([
      "'use' of 'other.svg#a', which is not in this drawing, is left out",
      "'use' of '#gone', which is not in this drawing, is left out",
    ]);
  });

  it('name strokes by themselves, their classes and every group round them', () => {
    const { strokes } = drawingOf(
      millimetres(
        `<g id="marks" class="layer"><g xmlns:o="urn:other" o:label="waist lines"><line id="l" class="waist fine" data-level="bust" x2="9"/></g></g>`,
      ),
    );
    expect(strokes[0]!.names).toEqual(['l', 'waist', 'fine', 'bust', 'waist lines', 'marks', 'layer']);
  });

  it('give their id to the one outline in them that has none', () => {
    const { outlines } = drawingOf(
      millimetres(
        '<g id="front"><rect width="30" height="30"/></g><g id="x"><rect width="30" height="30"/><rect width="40" height="30"/></g>',
      ),
    );
    expect(outlines.map(({ id }) => id)).toEqual(['front', undefined, undefined]);
  });
});

describe('what is not drawn', () => {
  it.each([
    '<defs><rect width="30" height="30"/></defs>',
    '<clipPath id="c"><rect width="30" height="30"/></clipPath>',
    '<mask><rect width="30" height="30"/></mask><pattern><rect width="30" height="30"/></pattern><marker><rect width="30" height="30"/></marker>',
    '<symbol><rect width="30" height="30"/></symbol>',
    '<g display="none"><rect width="30" height="30"/></g>',
    '<g style="fill:red; display : none !important"><rect width="30" height="30"/></g>',
    '<g visibility="hidden"><rect width="30" height="30"/></g>',
    '<rect width="30" height="30" fill="none"/>',
    '<foreignObject><rect width="30" height="30"/></foreignObject>',
    '<o:g xmlns:o="urn:other"><rect width="30" height="30"/></o:g>',
    '<!-- <rect width="30" height="30"/> -->',
    '<style>rect { display: block }</style><script><![CDATA[ <rect width="30" height="30"/> ]]></script>',
  ])('is not read: %s', (content) => {
    const { outlines, strokes, artwork } = drawingOf(millimetres(content));
    expect([...outlines, ...strokes, ...artwork]).toEqual([]);
  });

  it('may hold things that are drawn', () => {
    expect(boxes('<g visibility="hidden"><rect width="30" height="30" visibility="visible"/></g>').length).toBe(1);
    expect(
      boxes(
        '<switch><foreignObject requiredExtensions="urn:x"/><g requiredExtensions="urn:y"/><g><rect width="30" height="30"/></g><rect width="40" height="40"/></switch>',
      ).length,
    ).toBe(1);
    expect(boxes('<a href="http://example.org"><rect width="30" height="30"/></a>').length).toBe(1);
  });
});

describe('style sheets', () => {
  it('hide what they hide and colour text, by tag, class and id', () => {
    const { outlines, artwork } = drawingOf(
      millimetres(`<style>/* .a{} */ .hidden , #off{display:none} @media print{.shown{display:none}} @import "x";
          text{font-size:5px}.red{fill:red;fill:url(http://example.org)} g .deep{display:none}</style>
        <g class="layer hidden"><rect width="30" height="30"/></g><rect id="off" width="31" height="30"/>
        <g><rect class="shown deep" width="32" height="30"/></g><rect class="hidden" style="display:inline" width="33" height="30"/>
        <text class="red">a</text>`),
    );
    expect(outlines.map(boxOf).map(([, , right]) => right)).toEqual([32, 33]);
    expect(artwork[0]!.markup).toContain('<text class="red" style="font-size:5px;fill:red">a</text>');
  });
});

describe('broken values', () => {
  it.each([
    ['<path d="M0 0 L 10 10 L 20"/>', 'path data ends before L has all its numbers'],
    ['<path d="M0 0 X 3"/>', "path data has 'X 3' where it cannot stand, after M"],
    ['<path d="L 3 3"/>', 'path data must start with M'],
    ['<path d="M0 0 A 5 5 0 2 0 9 9"/>', "path data has '2 0 9 9' where it cannot stand, after A"],
    ['<path d="M0 0 L 3,"/>', 'path data ends before L has all its numbers'],
    ['<path d="M0,0,,3"/>', "path data has ',3' where it cannot stand, after M"],
    ['<path d="M0 0 L NaN 3"/>', "path data has 'NaN 3' where it cannot stand, after L"],
    ['<polygon points="0 0 5"/>', 'points hold an odd count of numbers'],
    ['<polyline points="0 0 5 x"/>', "points hold 'x', which is no number"],
    ['<rect width="3 mm" height="4"/>', "'3 mm' is not a length"],
    ['<circle r="3furlong"/>', "unknown unit 'furlong' in '3furlong'"],
    ['<g transform="spin(3)"/>', "unknown transform 'spin'"],
  ])('of %s are refused', (content, message) => {
    const complaint = complaintOf(() => drawingOf(millimetres(content)));
    expect(complaint.replace(/^input: drawn\.svg:1:\d+: /, '')).toBe(message);
  });

  it('are pointed at to the character', () => {
    const svg = '<svg>\n  <path d="M0 0\n    L 10 10\n    L 20"/></svg>';
    expect(complaintOf(() => drawingOf(svg))).toBe('input: drawn.svg:4:9: path data ends before L has all its numbers');
  });
});

describe('artwork', () => {
  it('keeps text and embedded pictures with their place and look', () => {
    const { artwork } = drawingOf(
      millimetres(`<g transform="translate(10 20)" fill="red" style="font-size:5px"><text x="3 9" y="4" onclick="run()">A &amp; B<tspan dy="5">c</tspan></text></g>
        <text><tspan x="7" y="8">late</tspan></text>
        <image width="10" height="20" x="1" href="data:image/png;base64,AAAA"/><image href="http://example.org/a.png"/>`),
    );
    expect(artwork).toEqual([
      {
        markup:
          '<g transform="matrix(1 0 0 1 10 20)" fill="red" font-size="5px"><text x="3 9" y="4"><![CDATA[A & B]]><tspan dy="5">c</tspan></text></g>',
        at: { x: expect.closeTo(13, 9), y: expect.closeTo(24, 9) },
      },
      { markup: expect.stringContaining('late'), at: { x: expect.closeTo(7, 9), y: expect.closeTo(8, 9) } },
      {
        markup: expect.stringContaining('<image width="10" height="20" x="1" href="data:image/png;base64,AAAA"/>'),
        at: { x: expect.closeTo(6, 9), y: expect.closeTo(10, 9) },
      },
    ]);
  });
});

it('a line that nearly closes is named with its gap', () => {
  const { strokes, warnings } = drawingOf(millimetres('<path d="M10 10H110V110H10V14"/>'));
  expect(strokes.length).toBe(1);
  expect(warnings).toEqual([
    expect.stringMatching(/^drawn\.svg:1:\d+: this line is not closed: its ends lie 4\.00 mm apart at 10,14 mm$/),
  ]);
  expect(pathStart(strokes[0]!.path)).not.toEqual(pathEnd(strokes[0]!.path));
});
