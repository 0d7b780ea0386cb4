/**
 * The offset as two polygon libraries give it. They know no curves: an outline is flattened for them, with a short stub along each end
 * tangent of a curve, so that their mitres start in the right direction.
 */

import { EndType, inflatePathsD, JoinType } from 'clipper2-ts';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';
import { tangentOn } from '../../src/geometry/evaluate.ts';
import { flattenPath } from '../../src/geometry/flatten.ts';
import type { Path } from '../../src/geometry/path.ts';
import { movePoint, type Point } from '../../src/geometry/point.ts';
import { scaled } from '../../src/geometry/vector.ts';

const STUB = 0.01;
const MITRE_LIMIT = 60;
const DECIMALS = 5;

/** The corners of the outline as a polygon within `tolerance`, the first not repeated. */
export const stubbedPolygon = (outline: readonly Path[], tolerance: number): Point[] =>
  outline
    .flatMap((path) => path.segments)
    .flatMap((segment) => {
      const points = flattenPath({ segments: [segment] }, tolerance);
      const inner = points.slice(1, -1);
      if (segment.kind === 'line') return [segment.start, ...inner];
      const first = movePoint(segment.start, scaled(tangentOn(segment, 0), STUB));
      const last = movePoint(segment.end, scaled(tangentOn(segment, 1), -STUB));
      return [segment.start, first, ...inner, last];
    });

/** Every outline that is left, positive distances outwards on an outline that runs clockwise on paper. */
export const clipperOffset = (polygon: readonly Point[], distance: number): Point[][] =>
  inflatePathsD(
    [polygon.map(({ x, y }) => ({ x, y }))],
    distance,
    JoinType.Miter,
    EndType.Polygon,
    MITRE_LIMIT,
    DECIMALS,
  );

/** Every outline that is left; the rings of holes come after that of the part they are in. */
export const jstsOffset = (polygon: readonly Point[], distance: number): Point[][] => {
  const factory = new GeometryFactory();
  const ring = [...polygon, polygon[0]!].map(({ x, y }) => new Coordinate(x, y));
  const parameters = new BufferParameters();
  parameters.setJoinStyle(BufferParameters.JOIN_MITRE);
  parameters.setMitreLimit(MITRE_LIMIT);
  const result = new BufferOp(factory.createPolygon(factory.createLinearRing(ring)), parameters).getResultGeometry(
    distance,
  );
  const rings: Point[][] = [];
  for (let i = 0; i < result.getNumGeometries(); i += 1) {
    const part = result.getGeometryN(i);
    if (part.isEmpty()) continue;
    const all = [part.getExteriorRing()];
    for (let k = 0; k < part.getNumInteriorRing(); k += 1) all.push(part.getInteriorRingN(k));
    for (const one of all) rings.push(one.getCoordinates().map(({ x, y }: Point) => ({ x, y })));
  }
  return rings;
};
