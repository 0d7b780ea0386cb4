import { line } from '../../src/geometry/segment.ts';
import { point, type Point } from '../../src/geometry/point.ts';
import type { Path } from '../../src/geometry/path.ts';
import type { Drawing, Outline, Stroke } from '../../src/pattern/drawing.ts';
import type { LabelAnswers } from '../../src/labelling/label-answers.ts';

export type Place = readonly [x: number, y: number];

const at = ([x, y]: Place): Point => point(x, y);

/** Straight lines from place to place. */
export const open = (...places: readonly Place[]): Path => ({
  segments: places.slice(1).map((place, index) => line(at(places[index]!), at(place))),
});

/** The same, closed. */
export const closed = (...places: readonly Place[]): Path => open(...places, places[0]!);

export const outline = (path: Path, id?: string): Outline => ({ path, where: 'drawn.svg:1:1', ...(id ? { id } : {}) });

export const stroke = (path: Path, ...names: readonly string[]): Stroke => ({ path, names, where: 'drawn.svg:2:1' });

export const drawing = (outlines: readonly Outline[], strokes: readonly Stroke[] = []): Drawing => ({
  name: 'Bodice',
  outlines,
  strokes,
  artwork: [],
  warnings: [],
});

export const answers = (over: Partial<LabelAnswers> = {}): LabelAnswers => ({
  line: 'stitching',
  panels: ['front', 'back'],
  seams: ['cf', 'side', 'cb'],
  pieces: 'pairs',
  units: 'mm',
  centreFront: 'left',
  flip: [],
  turn: {},
  corners: [],
  levels: [],
  ...over,
});

/** An upright box from its upper left, clockwise. */
export const box = (x: number, y: number, width: number, height: number): Path =>
  closed([x, y], [x + width, y], [x + width, y + height], [x, y + height]);
