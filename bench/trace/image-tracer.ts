import ImageTracer from 'imagetracerjs';
import { between, point } from '../../src/geometry/point.ts';
import { cubic, line } from '../../src/geometry/segment.ts';
import type { Peer } from './peer.ts';

const OPTIONS = {
  pal: [
    { r: 0, g: 0, b: 0, a: 255 },
    { r: 255, g: 255, b: 255, a: 255 },
  ],
  colorquantcycles: 1,
  pathomit: 20,
};

/** imagetracerjs on black and white, its line and curve options left as they are; its quadratics are raised to cubics. */
export const imageTracer: Peer = {
  name: 'imagetracerjs',
  trace: ({ width, height, grey }, level) => {
    const data = new Uint8ClampedArray(4 * width * height).fill(255);
    for (const [i, value] of grey.entries()) if (value < level) data.fill(0, 4 * i, 4 * i + 3);
    const dark = ImageTracer.imagedataToTracedata({ width, height, data }, OPTIONS).layers[0]!;
    return dark.map(({ segments }) => ({
      segments: segments.map((s) => {
        const [start, second] = [point(s.x1, s.y1), point(s.x2, s.y2)];
        if (s.type === 'L') return line(start, second);
        const end = point(s.x3, s.y3);
        return cubic(start, between(start, second, 2 / 3), between(end, second, 2 / 3), end);
      }),
    }));
  },
};
