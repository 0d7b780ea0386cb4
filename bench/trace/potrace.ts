import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import svgpath from 'svgpath';
import type { Path } from '../../src/geometry/path.ts';
import { point } from '../../src/geometry/point.ts';
import { cubic, line, type Segment } from '../../src/geometry/segment.ts';
import type { Picture } from '../../src/scan/picture.ts';
import type { Peer } from './peer.ts';

export const hasPotrace = (): boolean => spawnSync('potrace', ['--version']).status === 0;

/** Specks up to so many pixels are left out; places are written to a thousandth of a pixel. */
const TRACING = ['--turdsize', '20', '--unit', '1000', '--backend', 'svg'];

/** The potrace executable, its corner and curve options left as they are. */
export const potrace: Peer = {
  name: 'potrace',
  trace: (picture, level) => {
    const room = mkdtempSync(join(tmpdir(), 'staywright-bench-'));
    try {
      const [bits, drawn] = [join(room, 'bits.pbm'), join(room, 'drawn.svg')];
      writeFileSync(bits, bitmapOf(picture, level));
      const run = spawnSync('potrace', [...TRACING, '--output', drawn, bits], { encoding: 'utf8' });
      if (run.status !== 0) throw new Error(run.stderr);
      return pathsOf(readFileSync(drawn, 'utf8'));
    } finally {
      rmSync(room, { recursive: true, force: true });
    }
  },
};

const bitmapOf = ({ width, height, grey }: Picture, level: number): Buffer => {
  const stride = Math.ceil(width / 8);
  const head = Buffer.from(`P4\n${width} ${height}\n`);
  const bits = Buffer.alloc(stride * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      if (grey[y * width + x]! < level) bits[y * stride + (x >> 3)]! |= 0x80 >> (x & 7);
    }
  }
  return Buffer.concat([head, bits]);
};

/** What it drew: one group with a transform, from whose places a point is a pixel of the picture. */
const pathsOf = (svg: string): Path[] => {
  const transform = /<g transform="([^"]+)"/u.exec(svg)![1]!;
  return [...svg.matchAll(/<path d="([^"]+)"/gu)].flatMap(([, data]) => contoursOf(data!, transform));
};

const contoursOf = (data: string, transform: string): Path[] => {
  const contours: Path[] = [];
  let segments: Segment[] = [];
  svgpath(data)
    .abs()
    .transform(transform)
    .abs()
    .iterate(([letter, ...n], _, x, y) => {
      const v = n as number[];
      const from = point(x, y);
      if (letter === 'M') segments = [];
      else if (letter === 'L') segments.push(line(from, point(v[0]!, v[1]!)));
      else if (letter === 'C') {
        segments.push(cubic(from, point(v[0]!, v[1]!), point(v[2]!, v[3]!), point(v[4]!, v[5]!)));
      } else if (letter.toUpperCase() === 'Z') contours.push({ segments: closed(segments) });
      else throw new Error(`potrace drew "${letter}"`);
    });
  return contours;
};

/** The closing line that "z" stands for. */
const closed = (segments: readonly Segment[]): Segment[] => {
  const [start, end] = [segments[0]!.start, segments.at(-1)!.end];
  return Math.hypot(start.x - end.x, start.y - end.y) > 1e-6 ? [...segments, line(end, start)] : [...segments];
};
