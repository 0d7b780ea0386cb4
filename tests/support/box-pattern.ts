import { line } from '../../src/geometry/segment.ts';
import { point } from '../../src/geometry/point.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';

/** Stitching panels of 80 x 360 mm with straight sides: seams `cf`, `seam-1` ... `cb`, levels at bust, waist and hip. */
export const boxPattern = (count: number): Pattern => ({
  name: 'Boxes',
  pieces: 'pairs',
  units: 'mm',
  panels: Array.from({ length: count }, (_, at) => boxPanel(at, count)),
});

const boxPanel = (at: number, count: number): Panel => {
  const seam = (number: number): string => (number === 0 ? 'cf' : number === count ? 'cb' : `seam-${number}`);
  const [topLeft, topRight] = [point(0, -180), point(80, -180)];
  const [bottomRight, bottomLeft] = [point(80, 180), point(0, 180)];
  const edge = (name: string, from: typeof topLeft, to: typeof topLeft) => ({
    name,
    path: { segments: [line(from, to)] },
  });
  return {
    name: `panel-${at + 1}`,
    line: 'stitching',
    edges: [
      edge('top', topLeft, topRight),
      edge(seam(at + 1), topRight, bottomRight),
      edge('bottom', bottomRight, bottomLeft),
      edge(seam(at), bottomLeft, topLeft),
    ],
    levels: [
      { name: 'bust', y: -120, fromX: 0, toX: 80 },
      { name: 'waist', y: 0, fromX: 0, toX: 80 },
      { name: 'hip', y: 150, fromX: 0, toX: 80 },
    ],
    notches: [{ edge: seam(at + 1), at: point(80, 60), inner: point(74, 60) }],
    grain: { from: point(40, -100), to: point(40, 100) },
    bones: [],
  };
};
