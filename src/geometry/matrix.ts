/** Affine maps in the order of SVG's `matrix(a b c d e f)`: x' = ax + cy + e, y' = bx + dy + f. */
export interface Matrix {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export const IDENTITY: Matrix = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

export const translation = (dx: number, dy: number): Matrix => ({ a: 1, b: 0, c: 0, d: 1, e: dx, f: dy });

/** A turn about the origin; positive is clockwise on paper. */
export const rotation = (radians: number): Matrix => {
  const cos = Math.cos(radians);
  const sin = Math.sin(radians);
  return { a: cos, b: sin, c: -sin, d: cos, e: 0, f: 0 };
};

/** About the origin; a negative factor mirrors. */
export const scaling = (x: number, y: number = x): Matrix => ({ a: x, b: 0, c: 0, d: y, e: 0, f: 0 });

/** The map that applies `inner` first, then `outer`. */
export const compose = (outer: Matrix, inner: Matrix): Matrix => ({
  a: outer.a * inner.a + outer.c * inner.b,
  b: outer.b * inner.a + outer.d * inner.b,
  c: outer.a * inner.c + outer.c * inner.d,
  d: outer.b * inner.c + outer.d * inner.d,
  e: outer.a * inner.e + outer.c * inner.f + outer.e,
  f: outer.b * inner.e + outer.d * inner.f + outer.f,
});

/** The map that undoes another. One that flattens everything onto a line has none: its numbers are then not finite. */
export const inverse = ({ a, b, c, d, e, f }: Matrix): Matrix => {
  const area = a * d - b * c;
  return {
    a: d / area,
    b: -b / area,
    c: -c / area,
    d: a / area,
    e: (c * f - d * e) / area,
    f: (b * e - a * f) / area,
  };
};
