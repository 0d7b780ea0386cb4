import { StaywrightError } from '../errors.ts';
import { compose, scaling, type Matrix } from '../geometry/matrix.ts';
import { cssLength, isAbsoluteLength, MM_PER_PX, type LengthContext } from './css-length.ts';
import { readViewBox, viewBoxMatrix } from './view-box.ts';
import { placeInAttribute, placeOf, type XmlDocument } from './xml-document.ts';

/** The size of a page for drawings that give none: what CSS falls back to, in px. */
const FALLBACK = { width: 300, height: 150 };
const FONT_SIZE = 16;
/** Width and height scaled apart by more than this share: 0.1 mm on a metre is rounding of the page size. */
const STRETCH = 1e-4;

export interface RootViewport {
  /** From user units to millimetres. */
  readonly matrix: Matrix;
  readonly lengths: LengthContext;
  /** Whether the drawing says how large it is in a unit of fixed size. */
  readonly isMeasured: boolean;
  /** Whether it is drawn wider or taller than its numbers say. */
  readonly isStretched: boolean;
}

/** So that a drawing in millimetres keeps its numbers exactly: there and back through px leaves a last digit wrong. */
const withoutNoise = (value: number): number => Number(value.toPrecision(13));

/**
 * How the numbers of a drawing become millimetres: by its size and viewBox, at 96 px to the inch where it gives no unit.
 * Throws an `input` error for a size of 0 or less.
 */
export const rootViewport = (document: XmlDocument): RootViewport => {
  const { root } = document;
  const where = placeOf(document, root.offset);
  const box = readViewBox(root.attributes['viewBox'], where);
  const page = box ?? FALLBACK;
  const none = {
    ...page,
    fontSize: FONT_SIZE,
    rootFontSize: FONT_SIZE,
    pageWidth: page.width,
    pageHeight: page.height,
  };
  const sizeOf = (side: 'width' | 'height'): number | undefined => {
    const text = root.attributes[side]?.trim();
    if (text === undefined || text === '' || text === 'auto' || text.endsWith('%')) return undefined;
    const length = cssLength(text, side, none, placeInAttribute(document, root, side, 0));
    if (length > 0) return length;
    throw new StaywrightError('input', `the drawing has a ${side} of ${text}`, { where, hint: 'set its page size' });
  };
  const [ownWidth, ownHeight] = [sizeOf('width'), sizeOf('height')];
  const width = ownWidth ?? (ownHeight === undefined ? page.width : (ownHeight * page.width) / page.height);
  const height = ownHeight ?? (ownWidth === undefined ? page.height : (ownWidth * page.height) / page.width);
  const toPx = box ? viewBoxMatrix(box, { width, height }, root.attributes['preserveAspectRatio'], where) : scaling(1);
  const size = box ?? { width, height };
  const { a, b, c, d, e, f } = compose(scaling(MM_PER_PX), toPx);
  return {
    matrix: {
      a: withoutNoise(a),
      b,
      c,
      d: withoutNoise(d),
      e: withoutNoise(e),
      f: withoutNoise(f),
    },
    lengths: { ...none, width: size.width, height: size.height, pageWidth: size.width, pageHeight: size.height },
    isMeasured: ['width', 'height'].some((side) => isAbsoluteLength(root.attributes[side] ?? '')),
    isStretched: Math.abs(toPx.a / toPx.d - 1) > STRETCH,
  };
};
