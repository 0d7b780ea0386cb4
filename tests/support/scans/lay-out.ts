import { flattenPath } from '../../../src/geometry/flatten.ts';
import { compose, inverse, rotation, scaling, translation, type Matrix } from '../../../src/geometry/matrix.ts';
import type { Path } from '../../../src/geometry/path.ts';
import { movePoint, type Point } from '../../../src/geometry/point.ts';
import { line, type Line } from '../../../src/geometry/segment.ts';
import { transformPath, transformPoint } from '../../../src/geometry/transform-path.ts';
import { leftNormal, scaled, unit, vectorTo, vector, magnitude } from '../../../src/geometry/vector.ts';
import type { PictureKind } from '../../../src/scan/rough-outline.ts';
import { shapeOf, type Shape } from './cover.ts';
import { alongPoints, besideRuns, closedStroke, cutEdge, disc, openStroke, smoothRuns } from './ink-shapes.ts';
import { randomFrom } from './random.ts';
import { notchLine, type ScanNotch, type ScanPanel } from './scan-panels.ts';
import type { PlacedPanel, PlacedSquare, ScanSpec } from './scan-spec.ts';
import { letterStrokes } from './stroke-letters.ts';
import { wearOf, type Crease, type Fade } from './wear.ts';

/** A panel as it truly is, in millimetres on the sheet. */
export interface TruePanel {
  readonly name: string;
  readonly outline: Path;
  readonly corners: readonly Point[];
  /** From the outline inwards. */
  readonly notches: readonly Line[];
  readonly grain: readonly Line[];
  readonly across: readonly Line[];
}

export interface Truth {
  readonly kind: PictureKind;
  /** Of the picture, in pixels. */
  readonly width: number;
  readonly height: number;
  readonly toPicture: Matrix;
  readonly toMm: Matrix;
  /** Pixels a millimetre as the dpi says, without the scanner's errors. */
  readonly pxPerMm: number;
  readonly lineWidth: number;
  readonly panels: readonly TruePanel[];
  /** The corners of the test square on the sheet, clockwise from its upper left, and its side. */
  readonly square?: { readonly side: number; readonly corners: readonly Point[] };
}

/** All that is to be drawn, in picture places. */
export interface Drawing {
  /** Grey of what the paper lies on. */
  readonly base: number;
  readonly paper: number;
  readonly inkGrey: number;
  /** Where there is paper; everywhere, if there are none. */
  readonly sheets: readonly Shape[];
  readonly ink: readonly Shape[];
  readonly gaps: readonly Shape[];
  readonly fades: readonly Fade[];
  readonly pencil: readonly { readonly shape: Shape; readonly strength: number }[];
  readonly dust: readonly { readonly shape: Shape; readonly grey: number; readonly strength: number }[];
  readonly creases: readonly Crease[];
}

const MM_PER_INCH = 25.4;
const CUT_HALF = 1.5;
const CARD_MARGIN = 4;
const THIN = 0.7;
const BARB = 4;

export const placedMatrix = ({ at, turn = 0, enlarged = 1 }: Omit<PlacedPanel, 'panel'>): Matrix =>
  compose(translation(at.x, at.y), compose(rotation((turn * Math.PI) / 180), scaling(enlarged)));

const mapLine = (l: Line, m: Matrix): Line => line(transformPoint(l.start, m), transformPoint(l.end, m));

const truePanel = (placed: PlacedPanel): TruePanel => {
  const m = placedMatrix(placed);
  const { panel } = placed;
  const outline = transformPath(panel.outline, m);
  return {
    name: panel.name,
    outline,
    corners: panel.corners.map((p) => transformPoint(p, m)),
    notches: panel.notches.map((n) => notchLine(outline, n)),
    grain: [mapLine(panel.grain, m)],
    across: panel.across.map((l) => mapLine(l, m)),
  };
};

const squareCorners = ({ side, at, turn = 0 }: PlacedSquare, margin = 0): Point[] => {
  const m = compose(translation(at.x, at.y), rotation((turn * Math.PI) / 180));
  const [low, high] = [-margin, side + margin];
  return [
    [low, low],
    [high, low],
    [high, high],
    [low, high],
  ].map(([x, y]) => transformPoint({ x: x!, y: y! }, m));
};

/** The printed square and a caption in it. */
const squareInk = (square: PlacedSquare, lineWidth: number): Point[][][] => {
  const m = placedMatrix(square);
  const caption = letterStrokes('TEST', { x: square.side / 4, y: square.side / 2.4 }, square.side / 7);
  return [
    closedStroke(closed(squareCorners(square)), lineWidth),
    ...caption.map((stroke) => [
      openStroke(
        stroke.map((p) => transformPoint(p, m)),
        lineWidth * THIN,
      ),
    ]),
  ];
};

const closed = (points: readonly Point[]): Path => ({
  segments: points.map((p, i) => line(p, points[(i + 1) % points.length]!)),
});

/** The shaft of a grainline and the head of each arrow: two barbs, or filled. */
const grainStrokes = (l: Line, { arrows, filled = false }: ScanPanel, width: number): Point[][][] => {
  const barbs = arrows.map((end) => {
    const [tip, tail] = end === 'start' ? [l.start, l.end] : [l.end, l.start];
    const back = scaled(unit(vectorTo(tip, tail)), BARB);
    const barb = (way: number): Point =>
      movePoint(tip, vector(back.dx * 0.9 - way * back.dy * 0.4, back.dy * 0.9 + way * back.dx * 0.4));
    const head = [barb(1), tip, barb(-1)];
    return [filled ? head : openStroke(head, width)];
  });
  return [[openStroke([l.start, l.end], width)], ...barbs];
};

const dashes = (outline: Path, away: number, width: number): Point[][][] => {
  const beside = besideRuns(smoothRuns(outline), away);
  const places = alongPoints([...beside, beside[0]!], 0.5);
  const strokes: Point[][][] = [];
  for (let i = 0; i + 8 < places.length; i += 12) {
    strokes.push([
      openStroke(
        places.slice(i, i + 9).map(({ at }) => at),
        width,
      ),
    ]);
  }
  return strokes;
};

/** A triangle that stands on the outline: its sides' middles, or its own edges if it is filled, meet at the tip. */
const triangleInk = ({ start, end }: Line, triangle: NonNullable<ScanNotch['triangle']>, width: number): Point[] => {
  const inwards = vectorTo(start, end);
  const half = scaled(leftNormal(unit(inwards)), triangle.base / 2);
  const tip = triangle.isOutside ? movePoint(start, scaled(inwards, -1)) : end;
  const corners = [movePoint(start, half), tip, movePoint(start, scaled(half, -1))];
  return triangle.isFilled ? corners : openStroke(corners, width);
};

const inkOf = (placed: PlacedPanel, truth: TruePanel, kind: PictureKind, lineWidth: number): Point[][][] => {
  const m = placedMatrix(placed);
  const thin = lineWidth * THIN;
  const ticks = placed.panel.notches.map((n, i) => {
    const { start, end } = truth.notches[i]!;
    const inwards = unit(vectorTo(start, end));
    if (n.triangle) return [triangleInk(truth.notches[i]!, n.triangle, thin)];
    return [openStroke([movePoint(start, scaled(inwards, -n.outside)), end], thin)];
  });
  return [
    ...(kind === 'line' ? [closedStroke(truth.outline, lineWidth), ...ticks] : []),
    ...(kind === 'line' && placed.second !== undefined ? dashes(truth.outline, placed.second, thin) : []),
    ...truth.grain.flatMap((l) => grainStrokes(l, placed.panel, thin)),
    ...truth.across.map((l) => [openStroke([l.start, l.end], thin)]),
    ...placed.panel.letters.map((stroke) => [
      openStroke(
        stroke.map((p) => transformPoint(p, m)),
        thin,
      ),
    ]),
  ];
};

/** What the scan will show, without drawing anything. */
export const truthOf = (spec: ScanSpec): Truth => {
  const { kind, dpi, sheet, lineWidth = 0.5, lid } = spec;
  const window = spec.window ?? { x: 0, y: 0, ...sheet };
  const margin = lid?.margin ?? 0;
  const pxPerMm = dpi / MM_PER_INCH;
  const width = Math.round((window.width + 2 * margin) * pxPerMm);
  const height = Math.round((window.height + 2 * margin) * pxPerMm);
  const toPicture = compose(
    translation(width / 2, height / 2),
    compose(
      {
        a: pxPerMm * (spec.scaleX ?? 1),
        b: 0,
        c: pxPerMm * (spec.shear ?? 0),
        d: pxPerMm * (spec.scaleY ?? 1),
        e: 0,
        f: 0,
      },
      compose(
        rotation(((spec.turn ?? 0) * Math.PI) / 180),
        translation(-window.x - window.width / 2, -window.y - window.height / 2),
      ),
    ),
  );
  const panels = spec.panels.map(truePanel);
  const square = spec.square && { side: spec.square.side, corners: squareCorners(spec.square) };
  return {
    kind,
    width,
    height,
    toPicture,
    toMm: inverse(toPicture),
    pxPerMm,
    lineWidth,
    panels,
    ...(square && { square }),
  };
};

/** Everything about a scan but its pixels. */
export const layOut = (spec: ScanSpec): { truth: Truth; drawing: Drawing } => {
  const truth = truthOf(spec);
  const { kind, sheet, lid } = spec;
  const { toPicture, panels, width, height, pxPerMm, lineWidth } = truth;
  const shape = (rings: readonly (readonly Point[])[]): Shape =>
    shapeOf(
      rings.map((ring) => {
        const places = new Float64Array(2 * ring.length);
        ring.forEach((p, i) => {
          const at = transformPoint(p, toPicture);
          places[2 * i] = at.x;
          places[2 * i + 1] = at.y;
        });
        return places;
      }),
    );
  const random = randomFrom(spec.seed ?? 1);
  const outlines = panels.map((p) => ({
    points: flattenPath(p.outline, 0.01),
    keepClear: [...p.corners, ...p.notches.map((l) => l.start), ...p.across.flatMap((l) => [l.start, l.end])],
  }));
  const wear = wearOf(spec.worn ?? {}, outlines, sheet, lineWidth, random);
  const edge = (inset: number): Point[] =>
    squareCorners({ side: 0, at: { x: 0, y: 0 } }).map((_, i) => ({
      x: i === 1 || i === 2 ? sheet.width - inset : inset,
      y: i > 1 ? sheet.height - inset : inset,
    }));
  const pieces = panels.map((p, i) => {
    const cuts = spec.panels[i]!.panel.notches.map(({ place }, k) => ({ place, tip: p.notches[k]!.end }));
    return shape([cutEdge(p.outline, cuts, CUT_HALF)]);
  });
  const cutouts = [...pieces, ...(spec.square ? [shape([squareCorners(spec.square, CARD_MARGIN)])] : [])];
  const { paper = 238, ink: inkGrey = 38, ground = 70 } = spec;
  const reach = Math.hypot(toPicture.a, toPicture.b);
  const chance = randomFrom((spec.scanSeed ?? spec.seed ?? 1) + 7919);
  const specks = Math.round(((spec.dust ?? 0) * width * height) / pxPerMm ** 2 / 10_000);
  return {
    truth,
    drawing: {
      base: kind === 'cutout' ? ground : (lid?.grey ?? paper),
      paper,
      inkGrey,
      sheets: kind === 'cutout' ? cutouts : lid ? [shape([edge(0)])] : [],
      ink: [
        ...panels.flatMap((p, i) => inkOf(spec.panels[i]!, p, kind, lineWidth)),
        ...(spec.square ? squareInk(spec.square, lineWidth) : []),
        ...(spec.frame !== undefined && kind === 'line' ? [closedStroke(closed(edge(spec.frame)), lineWidth)] : []),
      ].map(shape),
      gaps: kind === 'line' ? wear.gaps.map((gap) => shape([gap])) : [],
      fades: wear.fades.map((f) => ({ ...f, at: transformPoint(f.at, toPicture), spread: f.spread * reach })),
      pencil: wear.pencil.map(({ stroke, strength }) => ({ shape: shape([stroke]), strength })),
      dust: Array.from({ length: specks }, () => {
        const at = { x: chance.between(0, width), y: chance.between(0, height) };
        const ring = disc(at, pxPerMm * (0.03 + 0.12 * chance.next() ** 3));
        return {
          shape: shapeOf([Float64Array.from(ring.flatMap((p) => [p.x, p.y]))]),
          grey: chance.next() < 0.75 ? 90 : 230,
          strength: chance.between(0.4, 1),
        };
      }),
      creases: wear.creases.map((c) => {
        const way = transformPoint(movePoint(c.at, c.way), toPicture);
        const at = transformPoint(c.at, toPicture);
        const along = vectorTo(at, way);
        return { ...c, at, way: unit(along), spread: c.spread * magnitude(along) };
      }),
    },
  };
};
