import type { Words } from './scene.ts';
import { setText, type SetGlyph } from './set-text.ts';

/**
 * Words as the outlines of their letters, in SVG path data: what draws them then needs no font. Places are in millimetres, to a thousandth.
 * Words that show nothing give an empty text.
 */
export const letterPaths = ({ text, at, size, weight, align = 'start', angle = 0 }: Words): string => {
  const { glyphs, width } = setText(text, weight);
  const start = align === 'start' ? 0 : align === 'middle' ? -width / 2 : -width;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const place = (right: number, up: number): string => {
    const [x, y] = [(start + right) * size, -up * size];
    return `${shown(at.x + cos * x - sin * y)} ${shown(at.y + sin * x + cos * y)}`;
  };
  return glyphs.map((glyph) => outline(glyph, place)).join('');
};

const shown = (value: number): number => Math.round(value * 1000) / 1000 + 0;

/** `values` come in font units, x and y in turn, y upwards. */
const outline = ({ face, id, x, y }: SetGlyph, place: (right: number, up: number) => string): string =>
  face.font
    .glyphToJson(id)
    .map(({ type, values }) => {
      const points = values
        .flatMap((value, at) => (at % 2 === 0 ? [[value, values[at + 1] ?? 0] as const] : []))
        .map(([right, up]) => place(x + right / face.unitsPerEm, y + up / face.unitsPerEm));
      return `${type}${points.join(' ')}`;
    })
    .join('');
