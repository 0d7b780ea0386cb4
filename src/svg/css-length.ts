import { StaywrightError } from '../errors.ts';

/** One CSS pixel in millimetres: 96 to the inch. */
export const MM_PER_PX = 25.4 / 96;

/** What lengths relative to something are relative to, in user units. */
export interface LengthContext {
  /** Of the nearest viewport. */
  readonly width: number;
  readonly height: number;
  readonly fontSize: number;
  readonly rootFontSize: number;
  /** Of the whole drawing. */
  readonly pageWidth: number;
  readonly pageHeight: number;
}

/** Which length a percentage is of: `diagonal` is sqrt((width² + height²) / 2). */
export type PercentOf = 'width' | 'height' | 'diagonal' | 'font';

/** Absolute units in px, as CSS fixes them. */
const ABSOLUTE: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
  q: 96 / 101.6,
  pt: 96 / 72,
  pc: 16,
};

const relativeUnit = (unit: string, percentOf: PercentOf, context: LengthContext): number | undefined => {
  const { width, height, fontSize, rootFontSize, pageWidth, pageHeight } = context;
  switch (unit) {
    case '%':
      return { width, height, diagonal: Math.sqrt((width ** 2 + height ** 2) / 2), font: fontSize }[percentOf] / 100;
    case 'em':
    case 'ic':
      return fontSize;
    case 'ex':
    case 'ch':
      return fontSize / 2;
    case 'rem':
      return rootFontSize;
    case 'vw':
    case 'vi':
      return pageWidth / 100;
    case 'vh':
    case 'vb':
      return pageHeight / 100;
    case 'vmin':
      return Math.min(pageWidth, pageHeight) / 100;
    case 'vmax':
      return Math.max(pageWidth, pageHeight) / 100;
    default:
      return undefined;
  }
};

const LENGTH = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)([a-z%]*)\s*$/i;

/** Whether a length is in a unit of fixed size, so that the drawing's own scale is known. */
export const isAbsoluteLength = (text: string): boolean => {
  const unit = LENGTH.exec(text)?.[2]?.toLowerCase();
  return unit !== undefined && unit !== '' && unit !== 'px' && unit in ABSOLUTE;
};

/**
 * A CSS length in user units (px). `ex` and `ch` count as half an `em`, since fonts are not read.
 * Throws an `input` error for anything else, an unknown unit or a number that is not finite.
 */
export const cssLength = (text: string, percentOf: PercentOf, context: LengthContext, where: string): number => {
  const [, digits, suffix] = LENGTH.exec(text) ?? [];
  if (digits === undefined) throw new StaywrightError('input', `'${text.slice(0, 40)}' is not a length`, { where });
  const unit = suffix!.toLowerCase();
  const factor = Object.hasOwn(ABSOLUTE, unit) ? ABSOLUTE[unit]! : relativeUnit(unit, percentOf, context);
  if (factor === undefined)
    throw new StaywrightError('input', `unknown unit '${unit.slice(0, 20)}' in '${text.slice(0, 40)}'`, { where });
  const length = Number(digits) * factor;
  if (!Number.isFinite(length))
    throw new StaywrightError('input', `'${text.slice(0, 40)}' is not a finite length`, { where });
  return length;
};
