/** A colour as `#rrggbb`. */
export type Colour = `#${string}`;

/** Nothing is told by colour alone: each of these has a lightness of its own, so that a black and white printer keeps them apart. */
export const INK: Colour = '#1c1b1a';
export const PENCIL: Colour = '#6f6a64';
export const PALE: Colour = '#c9c3ba';
export const MADDER: Colour = '#a23b2a';
/** Behind what is marked: light enough for ink to stand on it. */
export const WASH: Colour = '#f1ddd3';
export const SHADE: Colour = '#ece8e1';
export const PAPER: Colour = '#ffffff';

/** Red, green and blue from 0 to 1. */
export const shares = (colour: Colour): readonly [number, number, number] => {
  const part = (at: number): number => Number.parseInt(colour.slice(at, at + 2), 16) / 255;
  return [part(1), part(3), part(5)];
};
