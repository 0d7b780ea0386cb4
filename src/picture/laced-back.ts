import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { pointsPath } from '../geometry/points-path.ts';
import { cubic, line, type Segment } from '../geometry/segment.ts';
import { MADDER, SHADE } from '../ink/colour.ts';
import type { LineStyle } from '../ink/line-style.ts';
import type { Area, Mark, Words } from '../ink/scene.ts';
import type { Side } from '../pattern/panel.ts';
import type { BackSpan, GirthPlotRow } from './girth-plot-row.ts';
import { CHANGED, FORMER, OUTLINE, TYPE, WANTED } from './hand.ts';
import { lacedOpening, wantedOpening, type Opening, type OpeningPiece } from './laced-back-opening.ts';
import { centred, straight } from './marks.ts';

/** Nothing was measured there. */
const HELD = [1.1, 1.1] as const;

const CENTRE: LineStyle = { ...FORMER, width: 0.22 };
const WISH: LineStyle = { ...WANTED, width: 0.3 };

/** How far the centre back shows above and below the garment. */
const CENTRE_END = 2.5;

/** Where a laced back is drawn. */
export interface BackPlace {
  /** Of the centre back, and of the waist. */
  readonly at: Point;
  /** Millimetres on the picture for each of the cloth, across as well as down. */
  readonly scale: number;
  /** How much of the garment is drawn beside each laced edge, at the least; on the picture. */
  readonly part: number;
  /** How far each laced edge runs. */
  readonly spans: Readonly<Record<Side, BackSpan>>;
}

/** The garment itself, and the lines and words over it. */
export interface LacedBack {
  readonly areas: readonly Area[];
  readonly marks: readonly Mark[];
}

/** How far the laced edges and the gap wanted reach to either side of the centre back, in millimetres of cloth. */
export const backReach = (rows: readonly GirthPlotRow[]): number => {
  const { sides, place } = lacedOpening(rows);
  return Math.max(
    ...rows.flatMap(({ y, gapWanted }) => [
      Math.abs(gapWanted) / sides.length,
      ...sides.map((side) => Math.abs(place(side, y, false).x)),
    ]),
  );
};

/**
 * The back of the laced garment as it would look from behind: its parts shaded, the opening between them left white and true to scale, the centre
 * back, and the gap wanted about it. An edge is unbroken between the outermost levels and dashed beyond them; where the edges would overlap they
 * lie on each other in a heavy line of their own, with words beside it.
 */
export const lacedBack = (rows: readonly GirthPlotRow[], { at, scale, part, spans }: BackPlace): LacedBack => {
  const opening = lacedOpening(rows);
  const reach = backReach(rows) * scale + part;
  const spot = (x: number, y: number): Point => ({ x: at.x + x * scale, y: at.y + y * scale });
  const drawn = opening.sides.map((side) => ({ side, span: spans[side] }));
  const [top, bottom] = [
    Math.min(...drawn.map(({ span }) => span.top)),
    Math.max(...drawn.map(({ span }) => span.bottom)),
  ];
  const areas = drawn.map(({ side, span }): Area => {
    const edge = edgePath(opening, side, opening.pieces(span), spot);
    const outer = at.x + (side === 'left' ? -reach : reach);
    const [from, to] = [pathStart(edge), pathEnd(edge)];
    const rest = pointsPath([to, { x: outer, y: to.y }, { x: outer, y: from.y }, from]);
    return {
      kind: 'area',
      path: { segments: [...edge.segments, ...rest.segments] },
      colour: SHADE,
      of: `back, ${side}`,
    };
  });
  return {
    areas,
    marks: [
      straight(
        { x: at.x, y: spot(0, top).y - CENTRE_END },
        { x: at.x, y: spot(0, bottom).y + CENTRE_END },
        CENTRE,
        'centre back',
      ),
      ...opening.sides.flatMap((side) => wishLine(rows, side, opening.sides.length, { top, bottom }, spot)),
      ...drawn.flatMap(({ side, span }, first) => edgeMarks(opening, side, first === 0, span, spot)),
      ...drawn.map(({ side, span }): Words => {
        const x = at.x + ((side === 'left' ? -1 : 1) * (reach * 2 - part)) / 2;
        const y = spot(0, span.bottom).y + TYPE.small * 1.4;
        return { kind: 'words', text: side, at: { x, y }, size: TYPE.small, align: 'middle' };
      }),
    ],
  };
};

type Spot = (x: number, y: number) => Point;

/** A cubic in x over y is one Bézier curve whose handles lie at the thirds of its height. */
const edgePath = (opening: Opening, side: Side, pieces: readonly OpeningPiece[], spot: Spot): Path => ({
  segments: pieces.map(({ top, bottom, held, meets }): Segment => {
    const [from, to] = [opening.place(side, top, meets), opening.place(side, bottom, meets)];
    const [start, end] = [spot(from.x, top), spot(to.x, bottom)];
    if (held) return line(start, end);
    const third = (bottom - top) / 3;
    return cubic(
      start,
      spot(from.x + from.slope * third, top + third),
      spot(to.x - to.slope * third, bottom - third),
      end,
    );
  }),
});

/** The edge in runs of one look each; where the edges meet, one line for both, drawn with the first. */
const edgeMarks = (opening: Opening, side: Side, isFirst: boolean, span: BackSpan, spot: Spot): Mark[] =>
  runsOf(opening.pieces(span)).flatMap((run): Mark[] => {
    const { held, meets } = run[0]!;
    if (meets && !isFirst) return [];
    const look = meets ? CHANGED : OUTLINE;
    const style = held ? { ...look, dash: HELD } : look;
    const what = meets ? meetWords(opening) : `${side} edge`;
    const of = held ? `${what}, not measured` : what;
    const stroke: Mark = { kind: 'stroke', path: edgePath(opening, side, run, spot), style, of };
    if (!meets || held) return [stroke];
    const { top, bottom } = run.toSorted((a, b) => b.bottom - b.top - (a.bottom - a.top))[0]!;
    const middle = (top + bottom) / 2;
    const beside = spot(opening.place(side, middle, true).x, middle);
    const aside = opening.sides.length === 1 && side === 'left' ? -1 : 1;
    const words = centred({
      text: what,
      at: { x: beside.x + aside * 1.6, y: beside.y },
      size: TYPE.small,
      align: aside === 1 ? 'start' : 'end',
      colour: MADDER,
    });
    return [stroke, words];
  });

const meetWords = ({ sides }: Opening): string => (sides.length === 1 ? 'past the centre' : 'edges meet');

const runsOf = (pieces: readonly OpeningPiece[]): readonly (readonly OpeningPiece[])[] => {
  const runs: OpeningPiece[][] = [];
  for (const piece of pieces) {
    const last = runs.at(-1)?.at(-1);
    if (last && last.held === piece.held && last.meets === piece.meets) runs.at(-1)!.push(piece);
    else runs.push([piece]);
  }
  return runs;
};

/** Points along the line of the gap wanted: dashes do not show finer ones. */
const WISH_POINTS = 40;

const wishLine = (
  rows: readonly GirthPlotRow[],
  side: Side,
  parts: number,
  { top, bottom }: BackSpan,
  spot: Spot,
): Mark[] => {
  const wanted = wantedOpening(rows);
  const outwards = (side === 'left' ? -1 : 1) / parts;
  const points = Array.from({ length: WISH_POINTS + 1 }, (_, at) => {
    const y = top + ((bottom - top) * at) / WISH_POINTS;
    return spot(outwards * wanted(y), y);
  });
  return [{ kind: 'stroke', path: pointsPath(points), style: WISH, of: `gap wanted, ${side}` }];
};
