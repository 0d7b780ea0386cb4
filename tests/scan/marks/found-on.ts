import type { Line } from '../../../src/geometry/segment.ts';
import { flattenPath } from '../../../src/geometry/flatten.ts';
import { distance, type Point } from '../../../src/geometry/point.ts';
import { transformPath, transformPoint } from '../../../src/geometry/transform-path.ts';
import { findMarks } from '../../../src/scan/marks/find-marks.ts';
import { findOutlines } from '../../../src/scan/rough/find-outlines.ts';
import type { TruePanel } from '../../support/scans/lay-out.ts';
import { makeScan } from '../../support/scans/make-scan.ts';
import type { ScanSpec } from '../../support/scans/scan-spec.ts';

/** What is found on each panel of a scan whose outlines are given exactly; millimetres. */
export interface FoundOn {
  readonly truth: TruePanel;
  readonly notches: readonly Line[];
  readonly grain: readonly Line[];
  readonly across: readonly Line[];
  readonly art: readonly (readonly Point[])[];
}

export const foundOn = async (spec: ScanSpec): Promise<FoundOn[]> => {
  const { picture, truth } = await makeScan(spec);
  const { working } = findOutlines(picture, truth.pxPerMm, truth.kind);
  const width = truth.kind === 'line' ? truth.lineWidth * truth.pxPerMm : undefined;
  return truth.panels.map((panel) => {
    const outline = transformPath(panel.outline, truth.toPicture);
    const marks = findMarks(picture, working, outline, truth.kind, truth.pxPerMm, width);
    const inMm = ({ start, end }: Line): Line => ({
      kind: 'line',
      start: transformPoint(start, truth.toMm),
      end: transformPoint(end, truth.toMm),
    });
    return {
      truth: panel,
      notches: marks.notches.map(inMm),
      grain: marks.grain.map(inMm),
      across: marks.across.map(inMm),
      art: marks.art.map((path) => flattenPath(transformPath(path, truth.toMm), 0.01)),
    };
  });
};

const apart = (a: Line, b: Line): number => Math.max(distance(a.start, b.start), distance(a.end, b.end));

/** How far the ends of the found lines lie from those of the true ones, each paired with the nearest left; the counts must agree. */
export const farthestApart = (found: readonly Line[], truth: readonly Line[]): number => {
  if (found.length !== truth.length) return Infinity;
  const left = [...found];
  return Math.max(
    0,
    ...truth.map((t) => {
      left.sort((a, b) => apart(a, t) - apart(b, t));
      return apart(left.shift()!, t);
    }),
  );
};

/** How far the farthest of some places lies from the nearest of some chains of lines. */
export const farthestFromChains = (places: readonly Point[], chains: readonly (readonly Point[])[]): number =>
  Math.max(
    ...places.map((p) =>
      Math.min(...chains.flatMap((chain) => chain.slice(1).map((b, i) => fromPiece(p, chain[i]!, b)))),
    ),
  );

const fromPiece = (p: Point, a: Point, b: Point): number => {
  const [ux, uy] = [b.x - a.x, b.y - a.y];
  const t = Math.min(1, Math.max(0, ((p.x - a.x) * ux + (p.y - a.y) * uy) / (ux * ux + uy * uy)));
  return Math.hypot(p.x - a.x - ux * t, p.y - a.y - uy * t);
};
