import type { Matrix } from '../geometry/matrix.ts';
import { isClosed, type Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { shares, type Colour } from './colour.ts';
import type { GlyphFonts } from './glyph-fonts.ts';
import type { LineStyle } from './line-style.ts';
import { inNumber, inNumbers } from './pdf-number.ts';
import { setText } from './set-text.ts';
import type { Weight } from './typefaces.ts';

export interface TextStyle {
  /** Of the em, in millimetres. */
  readonly size: number;
  readonly weight?: Weight;
  /** Which part of the line stands at the given point. */
  readonly align?: 'start' | 'middle' | 'end';
  /** Of the base line, in radians, clockwise on paper. */
  readonly angle?: number;
  readonly grey?: number;
  readonly colour?: Colour;
}

/** Writes PDF path and text operators one after another, in millimetres with y down, as the page or form is set up for. */
export class Ink {
  readonly #operators: string[] = [];

  constructor(readonly fonts: GlyphFonts) {}

  /** Everything that was drawn so far. */
  get content(): string {
    return this.#operators.join('\n');
  }

  /** Draws with settings of its own: a matrix, a clip or a style set within does not reach beyond. */
  within(matrix: Matrix | undefined, draw: () => void): void {
    this.#operators.push('q');
    if (matrix)
      this.#operators.push(
        `${[matrix.a, matrix.b, matrix.c, matrix.d].map(precise).join(' ')} ${precise(matrix.e)} ${precise(matrix.f)} cm`,
      );
    draw();
    this.#operators.push('Q');
  }

  clip(x: number, y: number, width: number, height: number): void {
    this.#operators.push(inNumbers([x, y, width, height], 're'), 'W n');
  }

  form(name: string): void {
    this.#operators.push(`/${name} Do`);
  }

  strokePath(path: Path, style: LineStyle): void {
    this.#style(style);
    this.#trace(path);
    this.#operators.push(isClosed(path) ? 's' : 'S');
  }

  strokeLine(points: readonly Point[], style: LineStyle, closed = false): void {
    this.#style(style);
    this.#tracePoints(points);
    this.#operators.push(closed ? 's' : 'S');
  }

  strokeBox(x: number, y: number, width: number, height: number, style: LineStyle): void {
    this.#style(style);
    this.#operators.push(inNumbers([x, y, width, height], 're'), 'S');
  }

  fillPath(path: Path, colour: Colour): void {
    this.#operators.push(fillColour({ colour }));
    this.#trace(path);
    this.#operators.push('f');
  }

  fillShape(points: readonly Point[], grey = 0): void {
    this.#operators.push(inNumbers([grey], 'g'));
    this.#tracePoints(points);
    this.#operators.push('f');
  }

  strokeCircle(center: Point, radius: number, style: LineStyle): void {
    const h = radius * 0.552_284_75;
    const { x, y } = center;
    this.#style(style);
    this.#operators.push(
      inNumbers([x + radius, y], 'm'),
      inNumbers([x + radius, y + h, x + h, y + radius, x, y + radius], 'c'),
      inNumbers([x - h, y + radius, x - radius, y + h, x - radius, y], 'c'),
      inNumbers([x - radius, y - h, x - h, y - radius, x, y - radius], 'c'),
      inNumbers([x + h, y - radius, x + radius, y - h, x + radius, y], 'c'),
      's',
    );
  }

  /** One line of text with its base line through `at`. */
  text(text: string, at: Point, style: TextStyle): void {
    const set = setText(text, style.weight);
    const { size } = style;
    const shift = style.align === 'middle' ? -set.width / 2 : style.align === 'end' ? -set.width : 0;
    const [cos, sin] = [Math.cos(style.angle ?? 0), Math.sin(style.angle ?? 0)];
    this.#operators.push('BT', fillColour(style));
    let font = '';
    let [penX, penY] = [Number.NaN, 0];
    let shown = '';
    const show = (): void => {
      if (shown) this.#operators.push(`[${shown}] TJ`);
      shown = '';
    };
    for (const glyph of set.glyphs) {
      const { font: name, code, advance } = this.fonts.codeOf(glyph);
      if (name !== font || glyph.y !== penY || Number.isNaN(penX)) {
        show();
        if (name !== font) this.#operators.push(`/${name} ${inNumber(size)} Tf`);
        const [x, y] = [(shift + glyph.x) * size, glyph.y * size];
        this.#operators.push(
          [cos, sin, sin, -cos].map(precise).join(' ') +
            ` ${inNumber(at.x + cos * x + sin * y)} ${inNumber(at.y + sin * x - cos * y)} Tm`,
        );
        [font, penX, penY] = [name, glyph.x, glyph.y];
      }
      const gap = Math.round((penX - glyph.x) * 1000);
      if (gap !== 0) shown += inNumber(gap);
      shown += `<${code.toString(16).padStart(2, '0')}>`;
      penX += advance - gap / 1000;
    }
    show();
    this.#operators.push('ET');
  }

  #style({ width, dash = [], roundEnds, grey = 0, colour }: LineStyle): void {
    this.#operators.push(
      `${inNumber(width)} w ${roundEnds ? 1 : 0} J 0 j [${dash.map(inNumber).join(' ')}] 0 d ${colour === undefined ? `${inNumber(grey)} G` : inNumbers(shares(colour), 'RG')}`,
    );
  }

  #trace(path: Path): void {
    const { start } = path.segments[0]!;
    this.#operators.push(inNumbers([start.x, start.y], 'm'));
    for (const s of path.segments) {
      if (s.kind === 'line') this.#operators.push(inNumbers([s.end.x, s.end.y], 'l'));
      else {
        const { startHandle: h, endHandle: k, end } = s;
        this.#operators.push(inNumbers([h.x, h.y, k.x, k.y, end.x, end.y], 'c'));
      }
    }
  }

  #tracePoints(points: readonly Point[]): void {
    points.forEach(({ x, y }, index) => this.#operators.push(inNumbers([x, y], index === 0 ? 'm' : 'l')));
  }
}

const fillColour = ({ grey = 0, colour }: { readonly grey?: number; readonly colour?: Colour }): string =>
  colour === undefined ? inNumbers([grey], 'g') : inNumbers(shares(colour), 'rg');

/** Matrices need more decimals than places: at 10 decimals a metre stays exact to a nanometre. */
const precise = (value: number): string => {
  if (!Number.isFinite(value)) throw new Error(`${value} cannot be drawn`);
  return (Math.round(value * 1e10) / 1e10 + 0).toFixed(10).replace(/\.?0+$/, '');
};
