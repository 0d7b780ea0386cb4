import { describe, expect, it } from 'vitest';
import { isInside } from '../../src/geometry/area.ts';
import type { Point } from '../../src/geometry/point.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { labelPlaces, type LabelPlace } from '../../src/svg/label-place.ts';
import { halfPattern } from '../support/half-pattern.ts';
import { allShapes } from '../support/shaped-panels.ts';

/** What a name covers: letters of 0.6 of their size, four fifths of it above the base line and a fifth below. */
const covered = (name: string, { x, y, size, upright }: LabelPlace) => {
  const half = 0.3 * size * name.length;
  return upright
    ? { minX: x - 0.8 * size, maxX: x + 0.2 * size, minY: y - half, maxY: y + half }
    : { minX: x - half, maxX: x + half, minY: y - 0.8 * size, maxY: y + 0.2 * size };
};

const faultsOf = (panel: Panel, place: LabelPlace): string[] => {
  const { minX, maxX, minY, maxY } = covered(panel.name, place);
  const corners: Point[] = [minX, maxX].flatMap((x) => [minY, maxY].map((y) => ({ x, y })));
  const { grain } = panel;
  const onGrain =
    grain !== undefined &&
    Math.min(grain.from.y, grain.to.y) < maxY &&
    Math.max(grain.from.y, grain.to.y) > minY &&
    grain.from.x > minX &&
    grain.from.x < maxX;
  return [
    ...(corners.every((corner) => isInside(outlineOf(panel), corner)) ? [] : [`${panel.name} leaves the panel`]),
    ...(onGrain ? [`${panel.name} lies on the grainline`] : []),
    ...panel.levels
      .filter((level) => level.y > minY && level.y < maxY)
      .map((level) => `${panel.name} lies on ${level.name}`),
  ];
};

const grained = (panel: Panel): Panel => {
  const [from, to] = [panel.levels[0]!, panel.levels.at(-1)!];
  const x = (from.fromX + from.toX) / 2;
  return { ...panel, grain: { from: { x, y: from.y - 30 }, to: { x, y: to.y + 30 } } };
};

const sheets = [
  ['as drawn', halfPattern().panels],
  ['with a grainline through the middle', halfPattern().panels.map(grained)],
  ['with names too long to go across', halfPattern().panels.map((p) => grained({ ...p, name: `${p.name}-underarm` }))],
  ['of every shape', allShapes.map((make) => make())],
] as const;

describe('the names on a sheet', () => {
  it.each(sheets)('are of one legible size, clear of grainline and levels: %s', (_, panels) => {
    const places = labelPlaces(panels);
    expect(places.flatMap((place, at) => faultsOf(panels[at]!, place))).toEqual([]);
    expect(new Set(places.map(({ size }) => size)).size).toBe(1);
    expect(places[0]!.size).toBeGreaterThanOrEqual(4);
  });

  it('still stand in a panel that has room for none', () => {
    const [panel] = halfPattern().panels;
    const [place] = labelPlaces([{ ...panel!, name: 'long'.repeat(40) }]);
    expect(place!.size).toBe(2.5);
    expect(Number.isFinite(place!.x + place!.y)).toBe(true);
  });
});
