import type { Matrix } from '../geometry/matrix.ts';
import { pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { roundPoint } from '../geometry/round-path.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import type { Artwork } from '../pattern/drawing.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Grain, Notch, Panel } from '../pattern/panel.ts';
import { drawArtwork, moveArtwork } from './keep-artwork.ts';
import { placeNotch } from './place-notch.ts';
import { touches, type PanelStrokes } from './sort-strokes.ts';

/** What lies inside a panel besides strokes. */
export interface PanelInside {
  readonly artwork: readonly Artwork[];
  /** Closed shapes that are marks; one that touches the outline is a notch. */
  readonly marks: readonly Path[];
}

/** The panel with its notches and grainline placed, and all that is neither kept as artwork; `matrix` leads from the drawing to it. */
export const keepMarks = (panel: Panel, strokes: PanelStrokes, inside: PanelInside, matrix: Matrix): Panel => {
  const outline = outlineOf(panel);
  const tried = [...strokes.notches.map((stroke) => stroke.path), ...inside.marks];
  const placed = tried.map((path) => ({ path, notch: notchOf(panel, outline, transformPath(path, matrix)) }));
  const left = placed.filter(({ notch }) => notch === undefined).map(({ path }) => path);
  const drawn = [...strokes.others.map((stroke) => stroke.path), ...left];
  const art = [drawArtwork(drawn, matrix), moveArtwork(inside.artwork, matrix)].filter((markup) => markup !== '');
  return {
    ...panel,
    notches: inEdgeOrder(
      panel,
      placed.flatMap(({ notch }) => notch ?? []),
    ),
    ...(strokes.grain ? { grain: placeGrain(strokes.grain.path, matrix) } : {}),
    ...(art.length > 0 ? { art: art.join('\n') } : {}),
  };
};

const notchOf = (panel: Panel, outline: Path, drawn: Path): Notch | undefined =>
  touches(outline, drawn) ? placeNotch(panel, drawn) : undefined;

/** Notches edge by edge as the outline runs, so that what is written does not depend on the drawing's order. */
const inEdgeOrder = (panel: Panel, notches: readonly Notch[]): Notch[] =>
  panel.edges.flatMap((edge) =>
    notches.filter((notch) => notch.edge === edge.name).toSorted((a, b) => a.at.y - b.at.y || a.at.x - b.at.x),
  );

const placeGrain = (path: Path, matrix: Matrix): Grain => {
  const [a, b] = [pathStart(path), pathEnd(path)].map((p) => roundPoint(transformPoint(p, matrix)));
  return a!.y <= b!.y ? { from: a!, to: b! } : { from: b!, to: a! };
};
