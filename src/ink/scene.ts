import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import type { Colour } from './colour.ts';
import type { LineStyle } from './line-style.ts';
import type { Weight } from './typefaces.ts';

/** A picture before it is written as SVG, PNG or PDF: marks in their order, the later over the earlier, in millimetres with y down. */
export interface Scene {
  readonly title: string;
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

export type Mark = Stroke | Area | Words;

/** A line; a path that closes upon itself is closed. */
export interface Stroke {
  readonly kind: 'stroke';
  readonly path: Path;
  readonly style: LineStyle;
  /** What it shows, for whoever reads the SVG: `front cf, before`. */
  readonly of?: string;
}

/** A filled shape. */
export interface Area {
  readonly kind: 'area';
  readonly path: Path;
  readonly colour: Colour;
  readonly of?: string;
}

/** One line of text with its base line through `at`. */
export interface Words {
  readonly kind: 'words';
  readonly text: string;
  readonly at: Point;
  /** Of the em, in millimetres. */
  readonly size: number;
  readonly weight?: Weight;
  /** Which part of the line stands at the given point: `start` where nothing is said. */
  readonly align?: 'start' | 'middle' | 'end';
  /** Of the base line, in radians, clockwise on paper. */
  readonly angle?: number;
  readonly colour?: Colour;
  /** Paper behind the words, so that they can be read across a line. */
  readonly backed?: boolean;
}
