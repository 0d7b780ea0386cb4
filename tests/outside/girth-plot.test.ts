/**
 * The girth plot read back from its own drawing. Bodies are rows of women from the US Army anthropometric survey 1988 (Gordon et al. 1989,
 * NATICK/TR-89/044), girths in mm, subject numbers as in the survey's open rows: those of `body-survey-1988.test.ts`. The pattern is eight
 * panels of straight lines, whose widths are worked out here by similar triangles.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { inkAlong, pixelsOf, type Pixels } from '../support/pixels.ts';
import { runMain } from '../support/run-main.ts';
import { inFolder } from '../support/run-staywright.ts';
import { patternOf, straightPanel } from '../support/shaped-panels.ts';

const BODIES = [
  { subject: 25197, bust: 830, underbust: 694, waist: 650, hip: 872 },
  { subject: 15587, bust: 1003, underbust: 864, waist: 833, hip: 1084 },
  { subject: 22376, bust: 887, underbust: 734, waist: 647, hip: 988 },
] as const;

const LEVELS = ['bust', 'underbust', 'waist', 'hip'] as const;

type Level = (typeof LEVELS)[number];

const HEIGHTS: Readonly<Record<Level, number>> = { bust: -170, underbust: -100, waist: 0, hip: 150 };

const [REDUCTION, WAIST_REDUCTION, GAP] = [20, 40, 62] as const;

const reductionAt = (level: Level): number => (level === 'waist' ? WAIST_REDUCTION : REDUCTION);

/** From (100, -200) to (80, 0) to (105, 180), less from (0, -200) to (10, 0) to (-5, 180); four panels, each cut twice. */
const patternAt = (level: Level): number => {
  const y = HEIGHTS[level];
  const [back, front] = y < 0 ? [80 - y / 10, 10 + y / 20] : [80 + (y * 25) / 180, 10 - (y * 15) / 180];
  return 8 * (back - front);
};

const gapAt = (body: (typeof BODIES)[number], level: Level): number =>
  body[level] - reductionAt(level) - patternAt(level);

const SEAMS = ['cf', 'front-side', 'side', 'side-back', 'cb'];

const plotted = (body: (typeof BODIES)[number], ...files: string[]) =>
  inFolder(async (folder) => {
    const panels = ['front', 'side-front', 'side-back', 'back'].map((name, at) =>
      straightPanel(name, [SEAMS[at]!, SEAMS[at + 1]!]),
    );
    const bare = panels.map((panel) => ({ ...panel, edges: panel.edges.map(({ name, path }) => ({ name, path })) }));
    writeFileSync(join(folder, 'net.svg'), writeSheet({ pattern: patternOf(...bare), record: [] }));
    const girths = LEVELS.map((level) => `${level}=${body[level]}mm`).join(',');
    const draw = async (file: string): Promise<Buffer> => {
      const words = `picture --girth-plot net.svg --body ${girths} --reduction ${REDUCTION}mm --reduction waist=${WAIST_REDUCTION}mm --gap ${GAP}mm -o ${file} -q`;
      const { code, stderr } = await runMain(words.split(' '), { cwd: folder });
      expect(stderr + code).toBe('0');
      return readFileSync(join(folder, file));
    };
    const drawn: Buffer[] = [];
    for (const file of files) drawn.push(await draw(file));
    return drawn;
  });

/** All places on the paths that show something, as numbers two by two. */
const placesOf = (svg: string, of: string): [number, number][][] =>
  [...svg.matchAll(/<path data-of="([^"]+)"[^>]* d="([^"]+)"/g)]
    .filter(([, name]) => name === of)
    .map(([, , d]) => [...d!.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]));

const middleOf = (places: readonly (readonly [number, number])[]): [number, number] =>
  [0, 1].map((axis) => {
    const along = places.map((place) => place[axis]!);
    return (Math.min(...along) + Math.max(...along)) / 2;
  }) as [number, number];

/** Where the axis has its lines, by the figures that stand at them. */
const ticksOf = (svg: string): { mm: number; x: number }[] => {
  const lines = [...svg.matchAll(/<path data-of="girth [^"]*"[^>]* d="M ([\d.]+),/g)].map(([, x]) => Number(x));
  const figures = [...svg.matchAll(/<text [^>]*x="([\d.]+)"[^>]*>(\d+)<\/text>/g)].map(([, x, text]) => ({
    mm: Number(text),
    x: Number(x),
  }));
  return lines.map((x) => figures.find((figure) => Math.abs(figure.x - x) < 0.01)!);
};

const scaleOf = (svg: string): number => 1 / Number(/scale 1:(\d+)/.exec(svg)![1]);

/** Where a laced edge passes a height. */
const edgeAt = (svg: string, side: string, y: number): number | undefined =>
  placesOf(svg, `${side} edge`)
    .flat()
    .find((place) => Math.abs(place[1] - y) < 0.002)?.[0];

const isShade = (grey: number): boolean => grey > 226 && grey < 238;
const isPaper = (grey: number): boolean => grey > 250;

/** From the middle of the line where shade ends to the middle of the line where shade begins again, in pixels. */
const whiteAlong = (pixels: Pixels, row: number): number => {
  const all = (from: number, to: number, is: (grey: number) => boolean): boolean =>
    Array.from({ length: to - from }, (_, at) => pixels.at(from + at, row)).every(is);
  const ink = inkAlong(pixels, row);
  const left = ink.find(([from, to]) => all(from - 9, from - 2, isShade) && all(to + 2, to + 9, isPaper))!;
  const right = ink.find(([from, to]) => all(from - 9, from - 2, isPaper) && all(to + 2, to + 9, isShade))!;
  return (right[0] + right[1] - left[0] - left[1]) / 2;
};

describe.each(BODIES)('the plot for subject $subject', (body) => {
  let svg = '';
  beforeAll(async () => {
    svg = (await plotted(body, 'plot.svg')).join('');
  });

  it('shows the survey’s girths, and what follows from them, by its own axis', () => {
    const ticks = ticksOf(svg);
    expect(ticks.length).toBeGreaterThan(4);
    const [first, last] = [ticks[0]!, ticks.at(-1)!];
    for (const { mm, x } of ticks)
      expect(((x - first.x) / (last.x - first.x)) * (last.mm - first.mm) + first.mm).toBeCloseTo(mm, 1);
    for (const level of LEVELS) {
      const wanted = body[level] - reductionAt(level) - GAP;
      for (const [what, truth] of [
        ['body', body[level]],
        ['wanted', wanted],
        ['pattern', patternAt(level)],
      ] as const) {
        const [x] = middleOf(placesOf(svg, `${what} ${level}`).flat());
        const girth = first.mm + ((x - first.x) / (last.x - first.x)) * (last.mm - first.mm);
        expect(Math.abs(girth - truth)).toBeLessThan(0.05);
      }
    }
  });

  it('shows each level at its height and each gap at the scale that it names', () => {
    const scale = scaleOf(svg);
    const waist = middleOf(placesOf(svg, 'pattern waist').flat())[1];
    for (const level of LEVELS) {
      const y = middleOf(placesOf(svg, `pattern ${level}`).flat())[1];
      expect((y - waist) / scale).toBeCloseTo(HEIGHTS[level], 1);
      const [left = 0, right = left] = ['left', 'right'].map((side) => edgeAt(svg, side, y));
      const isClosed = placesOf(svg, 'edges meet')
        .flat()
        .some((place) => Math.abs(place[1] - y) < 0.002);
      const gap = gapAt(body, level);
      expect({ level, isClosed }).toEqual({ level, isClosed: gap < 0 });
      expect(Math.abs((right - left) / scale - Math.max(0, gap))).toBeLessThan(0.02);
    }
  });
});

it('leaves as much white between the edges at the waist as the gap is wide, in the rendered picture', async () => {
  const body = BODIES[2];
  const [drawn, png] = await plotted(body, 'plot.svg', 'plot.png');
  const svg = drawn!.toString('utf8');
  const pixels = await pixelsOf(png!);
  const waist = middleOf(placesOf(svg, 'pattern waist').flat())[1];
  /** Just above and just below the line of the level, which crosses the opening itself. */
  const openings = [waist - 0.4, waist + 0.4].map((y) => whiteAlong(pixels, Math.floor(y * pixels.pxPerMm)));
  const opening = (openings[0]! + openings[1]!) / 2 / pixels.pxPerMm / scaleOf(svg);
  const pixel = 1 / pixels.pxPerMm / scaleOf(svg);
  expect(Math.abs(opening - gapAt(body, 'waist'))).toBeLessThan(pixel);
});

it('the bodies between them have gaps of every kind, one of them closed', () => {
  const gaps = BODIES.flatMap((body) => LEVELS.map((level) => gapAt(body, level)));
  expect(Math.min(...gaps)).toBeCloseTo(-6, 9);
  expect(Math.max(...gaps)).toBeCloseTo(237.333, 3);
});
