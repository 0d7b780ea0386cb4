import { flattenPath } from '../geometry/flatten.ts';
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Panel } from '../pattern/panel.ts';

/** Chords this near the curve, in millimetres, are near enough to keep text off lines and to say which pages a panel touches. */
const NEAR = 0.2;

export const pointsOf = (path: Path): Point[] => flattenPath(path, NEAR);

/** What has to lie whole on the paper: the outermost line of the panel, as points. */
export const panelShape = (panel: Panel): Point[] => pointsOf(panel.cutting ?? outlineOf(panel));
