import type { Matrix } from '../geometry/matrix.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import { marksThrough } from './found-marks.ts';
import { bridgeCuts } from './marks/bridge-cuts.ts';
import { findMarks } from './marks/find-marks.ts';
import { notchFromCut } from './marks/notch-from-cut.ts';
import { traceOutline } from './outline/trace-outline.ts';
import type { PanelOutline } from './panel-outlines.ts';
import type { Picture } from './picture.ts';
import type { PictureKind } from './rough-outline.ts';
import type { TracedPanel } from './traced.ts';
import type { WorkingPicture } from './working-picture.ts';

/** A picture in which outlines were found. */
export interface Sighted {
  readonly picture: Picture;
  readonly working: WorkingPicture;
  readonly kind: PictureKind;
  /** About its scale. */
  readonly pxPerMm: number;
}

/** One panel measured, with its marks, by `toMm` in millimetres; undefined where too little of its outline can be read. */
export const tracePanel = (sighted: Sighted, panel: PanelOutline, toMm: Matrix): TracedPanel | undefined => {
  const { picture, working, kind, pxPerMm } = sighted;
  const { outline, cuts } =
    panel.outline.edge === 'ink' ? { outline: panel.outline, cuts: [] } : bridgeCuts(panel.outline, pxPerMm);
  const traced = traceOutline(picture, outline, pxPerMm);
  if (traced === undefined) return undefined;
  const within = panel.within.flatMap((line) => traceOutline(picture, line, pxPerMm)?.path ?? []);
  const marks = findMarks(picture, working, traced.path, kind, pxPerMm, traced.lineWidth, within);
  const snips = cuts.flatMap((cut) => notchFromCut(picture, traced.path, cut, outline.edge, pxPerMm) ?? []);
  return {
    outline: transformPath(traced.path, toMm),
    within: within.map((path) => transformPath(path, toMm)),
    marks: marksThrough({ ...marks, notches: [...marks.notches, ...snips] }, toMm),
    corners: traced.corners.map((corner) => transformPoint(corner, toMm)),
    unseen: traced.unseen,
    spread: traced.spread / pxPerMm,
    bridged: traced.bridged / pxPerMm,
  };
};
