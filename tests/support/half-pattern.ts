import { cubic, line, type Segment } from '../../src/geometry/segment.ts';
import { point, type Point } from '../../src/geometry/point.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';

/** What one panel of a boned bodice measures: widths at bust, waist and hip, heights above and below the waist. */
interface Measures {
  readonly name: string;
  readonly bust: number;
  readonly waist: number;
  readonly hip: number;
  readonly above: number;
  readonly below: number;
}

const MEASURES: readonly Measures[] = [
  { name: 'front', bust: 92, waist: 62, hip: 84, above: 190, below: 170 },
  { name: 'front-side', bust: 104, waist: 58, hip: 96, above: 200, below: 150 },
  { name: 'side-front', bust: 78, waist: 54, hip: 104, above: 180, below: 140 },
  { name: 'side-back', bust: 74, waist: 52, hip: 108, above: 165, below: 145 },
  { name: 'back-side', bust: 82, waist: 56, hip: 96, above: 175, below: 150 },
  { name: 'back', bust: 70, waist: 58, hip: 72, above: 200, below: 160 },
];

/** An ordinary half pattern of six stitching panels with curved seams, 300 to 360 mm high. */
export const halfPattern = (): Pattern => ({
  name: 'Marchetti bodice, mock-up 2',
  pieces: 'pairs',
  units: 'mm',
  panels: MEASURES.map((measures, at) => panelOf(measures, SEAMS[at]!, SEAMS[at + 1]!)),
});

const SEAMS = ['cf', 'front-seam', 'bust-seam', 'side', 'back-seam', 'lacing-seam', 'cb'];

const BUST_ABOVE_WAIST = 120;
const HIP_BELOW_WAIST = 130;

const at = (side: -1 | 1, width: number, y: number): Point => point((side * width) / 2, y);

const sag = (a: Point, b: Point, by: number): Segment =>
  cubic(a, point(a.x + (b.x - a.x) / 3, a.y + by), point(a.x + ((b.x - a.x) * 2) / 3, b.y + by), b);

const level = (name: string, y: number, width: number) => ({ name, y, fromX: -width / 2, toX: width / 2 });

const panelOf = (m: Measures, front: string, back: string): Panel => {
  const seam = (side: -1 | 1): { top: Point; bust: Point; waist: Point; hip: Point; bottom: Point } => ({
    top: at(side, m.bust * 0.82, -m.above + (side === 1 ? 8 : 0)),
    bust: at(side, m.bust, -BUST_ABOVE_WAIST),
    waist: at(side, m.waist, 0),
    hip: at(side, m.hip, HIP_BELOW_WAIST),
    bottom: at(side, m.hip * 1.04, m.below),
  });
  const [left, right] = [seam(-1), seam(1)];
  const down = (s: ReturnType<typeof seam>): Segment[] => [
    eased(s.top, s.bust),
    eased(s.bust, s.waist),
    eased(s.waist, s.hip),
    line(s.hip, s.bottom),
  ];
  const up = (s: ReturnType<typeof seam>): Segment[] => down(s).toReversed().map(backwards);
  return {
    name: m.name,
    line: 'stitching',
    edges: [
      { name: 'top', path: { segments: [sag(left.top, right.top, -9)] } },
      { name: back, path: { segments: down(right) } },
      { name: 'bottom', path: { segments: [sag(right.bottom, left.bottom, 7)] } },
      { name: front, path: { segments: up(left) } },
    ],
    levels: [
      level('bust', -BUST_ABOVE_WAIST, m.bust),
      level('waist', 0, m.waist),
      level('hip', HIP_BELOW_WAIST, m.hip),
    ],
    notches: [
      { edge: back, at: right.waist, inner: point(right.waist.x - 6, 0) },
      { edge: back, at: right.bust, inner: point(right.bust.x - 6, right.bust.y) },
    ],
    bones: [
      { segments: [line(point(right.waist.x - 14, -BUST_ABOVE_WAIST + 20), point(right.waist.x - 14, m.below - 40))] },
    ],
  };
};

/** A curve from one point down to another that starts and ends straight down. */
const eased = (a: Point, b: Point): Segment => {
  const third = (b.y - a.y) / 2.6;
  return cubic(a, point(a.x, a.y + third), point(b.x, b.y - third), b);
};

const backwards = (s: Segment): Segment =>
  s.kind === 'line' ? line(s.end, s.start) : cubic(s.end, s.endHandle, s.startHandle, s.start);
