/** The long straight lines of a panel: grainlines, which have arrows, and lines right across, which run from outline to outline. */
import type { Path } from '../../geometry/path.ts';
import type { Point } from '../../geometry/point.ts';
import { line, type Line } from '../../geometry/segment.ts';
import type { Picture } from '../picture.ts';
import { findArrow, type Arrow } from './find-arrow.ts';
import { followLine, type FollowedLine } from './follow-line.ts';
import { BAND, INSIDE, pixelAt, type MarkField } from './mark-field.ts';
import { measureEnd } from './measure-end.ts';
import { measureLine, type MeasuredLine } from './measure-line.ts';
import { measureTip } from './measure-tip.ts';
import { meetOutline, type Meeting } from './meet-outline.ts';

/** Millimetres. */
const SHORTEST_PIECE = 2.5;
const SHORTEST_GRAIN = 20;
const SHORTEST_ACROSS = 12;
const WIDEST_GAP = 6;
/** Of a straight line's middles, four fifths lie this near to it; millimetres. */
const STRAIGHT = 0.12;
/** The least share of ink along a dashed line. */
const LEAST_COVER = 0.4;
/** A line across meets the outline at this angle at least. */
const LEAST_ANGLE = Math.PI / 6;
/** Outward of where a line seems to end, the outline is looked for as far as a gap may be. */
const TO_OUTLINE = WIDEST_GAP + 2;

export interface FoundLines {
  readonly grain: readonly Line[];
  readonly across: readonly Line[];
  readonly arrows: readonly Arrow[];
}

const lengthOf = ({ start, end }: Line): number => Math.hypot(end.x - start.x, end.y - start.y);

/** Whether a piece lies along a line that is found already. */
const liesAlong = (piece: Line, known: Line, within: number): boolean => {
  const long = lengthOf(known);
  const [dx, dy] = [(known.end.x - known.start.x) / long, (known.end.y - known.start.y) / long];
  return [piece.start, piece.end].every((p) => {
    const [x, y] = [p.x - known.start.x, p.y - known.start.y];
    const along = x * dx + y * dy;
    return along >= -within && along <= long + within && Math.abs(dx * y - dy * x) <= within;
  });
};

const backwards = ({ start, end }: Line): Line => line(end, start);

const grainFrom = (
  picture: Picture,
  field: MarkField,
  measured: MeasuredLine,
  arrows: readonly [Arrow | undefined, Arrow | undefined],
  pxPerMm: number,
): Line => {
  const end = (shaft: Line, arrow: Arrow | undefined): Point =>
    arrow
      ? (measureTip(picture, field, shaft, arrow, pxPerMm) ?? arrow.tip)
      : measureEnd(picture, shaft, measured.width, 0.8 * pxPerMm);
  const shaft = measured.line;
  return line(end(backwards(shaft), arrows[0]), end(shaft, arrows[1]));
};

const acrossFrom = (outline: Path, measured: Line, pxPerMm: number): Line | undefined => {
  const ends = [backwards(measured), measured].map((l) => meetOutline(outline, l, TO_OUTLINE * pxPerMm));
  if (!ends.every((m): m is Meeting => m !== undefined && m.angle >= LEAST_ANGLE)) return undefined;
  return line(ends[0]!.at, ends[1]!.at);
};

/** From the left, or from the top where it runs more down than across. */
const fromLeft = (l: Line): Line => {
  const [dx, dy] = [l.end.x - l.start.x, l.end.y - l.start.y];
  return (Math.abs(dx) >= Math.abs(dy) ? dx : dy) < 0 ? backwards(l) : l;
};
const fromTop = (l: Line): Line => (l.end.y < l.start.y ? backwards(l) : l);
const byHeight = (a: Line, b: Line): number => a.start.y + a.end.y - b.start.y - b.end.y;

/** Grainlines and lines across among the straight `pieces` of a panel's strokes; what is fainter than `faintest` is neither. */
export const findLines = (
  picture: Picture,
  field: MarkField,
  outline: Path,
  pieces: readonly Line[],
  pxPerMm: number,
  faintest: number,
): FoundLines => {
  const looked: Line[] = [];
  const grain: Line[] = [];
  const across: Line[] = [];
  const arrows: Arrow[] = [];
  const long = pieces.filter((p) => lengthOf(p) >= SHORTEST_PIECE * pxPerMm && isInside(field, p));
  for (const piece of long.toSorted((a, b) => lengthOf(b) - lengthOf(a))) {
    if (looked.some((l) => liesAlong(piece, l, 0.5 * pxPerMm))) continue;
    const followed = followLine(field, piece, WIDEST_GAP * pxPerMm, pxPerMm);
    if (!followed || !isLine(followed, pxPerMm)) continue;
    looked.push(followed.line);
    const solid = followed.stretches.map(({ from, to }) => ({ from: from + pxPerMm / 2, to: to - pxPerMm / 2 }));
    const measured = measureLine(picture, followed.line, solid, pxPerMm);
    if (!measured || measured.most > STRAIGHT * pxPerMm || measured.contrast < faintest) continue;
    const heads = [
      findArrow(field, backwards(measured.line), pxPerMm),
      findArrow(field, measured.line, pxPerMm),
    ] as const;
    if (heads.some((h) => h !== undefined) && lengthOf(measured.line) >= SHORTEST_GRAIN * pxPerMm) {
      const found = grainFrom(picture, field, measured, heads, pxPerMm);
      grain.push(fromTop(found));
      looked.push(found);
      arrows.push(...heads.filter((h) => h !== undefined));
    } else if (followed.tied[0] && followed.tied[1]) {
      const found = acrossFrom(outline, measured.line, pxPerMm);
      if (!found) continue;
      across.push(fromLeft(found));
      looked.push(found);
    }
  }
  return { grain: grain.toSorted(byHeight), across: across.toSorted(byHeight), arrows };
};

const isLine = (followed: FollowedLine, pxPerMm: number): boolean => {
  const long = lengthOf(followed.line);
  return long >= SHORTEST_ACROSS * pxPerMm && followed.cover >= LEAST_COVER;
};

const isInside = (field: MarkField, { start, end }: Line): boolean => {
  const p = pixelAt(field, (start.x + end.x) / 2, (start.y + end.y) / 2);
  return p >= 0 && (field.zone[p]! & (INSIDE | BAND)) === INSIDE;
};
