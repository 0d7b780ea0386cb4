import { compose, IDENTITY, inverse, rotation, translation, type Matrix } from '../../src/geometry/matrix.ts';
import { transformPath, transformPoint } from '../../src/geometry/transform-path.ts';
import { scaleScan, tracePanels } from '../../src/scan/trace-picture.ts';
import type { TracedPanel } from '../../src/scan/traced.ts';
import { alignRigidly } from '../../tests/support/scans/align-rigidly.ts';
import { scanCases, type ScanCase } from '../../tests/support/scans/cases.ts';
import { nearestOn, samplesOf } from '../../tests/support/scans/dense-outline.ts';
import type { Truth } from '../../tests/support/scans/lay-out.ts';
import { makeScan } from '../../tests/support/scans/make-scan.ts';
import { scoreTrace } from '../../tests/support/scans/score-trace.ts';
import { globalLevel } from './global-level.ts';
import { imageTracer } from './image-tracer.ts';
import type { Peer } from './peer.ts';
import { cornersOff, peerPanels } from './peer-panels.ts';
import { plainContour } from './plain-contour.ts';
import { hasPotrace, potrace } from './potrace.ts';

const SAMPLES = 0.2;

/** One tracer on one scan: millimetres, worst panel. */
interface Row {
  readonly name: string;
  readonly closed: number;
  readonly rms: number;
  readonly max: number;
  readonly corner: number;
  readonly segments: number;
  readonly seconds: number;
}

/** The cases of the goals, traced by us and by others from the same pictures, with our scale; one table. */
export const measureAccuracy = async (): Promise<void> => {
  const others = [...(hasPotrace() ? [potrace] : []), imageTracer, plainContour];
  if (!hasPotrace()) console.log('potrace is not installed: left out');
  console.log(
    'scan             tracer           closed    rms mm    max mm  corner mm  segments       s   rms, times ours',
  );
  for (const scanCase of scanCases(1)) await measureCase(scanCase, others);
};

const measureCase = async ({ name, spec }: ScanCase, others: readonly Peer[]): Promise<void> => {
  const { picture, truth } = await makeScan(spec);
  const scan = { name, picture, dpi: spec.dpi, isBilevel: spec.threshold !== undefined, notes: [] };
  const [scaled, traced, seconds] = timed(() => {
    const known = scaleScan(scan, { testSquare: spec.square!.side });
    return [known, tracePanels(scan, known, () => {})];
  });
  const { toMm } = scaled.scale;
  const middle = transformPoint({ x: truth.width / 2, y: truth.height / 2 }, toMm);
  const onSheet = rigidPart(compose(truth.toMm, inverse(toMm)), middle);
  const ours = rowOf('staywright', traced.panels, truth, onSheet, seconds);
  printRow(name, ours, ours, truth);

  const level = globalLevel(picture);
  for (const peer of others) {
    const [contours, spent] = timed(() => [peer.trace(picture, level)]);
    const found = peerPanels(contours, compose(onSheet, toMm), truth);
    const panels = found.map(({ panel }) => panel);
    const segments = Math.max(...found.map((one) => one.segments));
    printRow('', { ...rowOf(peer.name, panels, truth, IDENTITY, spent), segments }, ours, truth);
  }
};

const timed = <T extends readonly unknown[]>(work: () => [...T]): [...T, number] => {
  const began = performance.now();
  return [...work(), (performance.now() - began) / 1000];
};

/** `start` brings the panels near to their true places. */
const rowOf = (name: string, panels: readonly TracedPanel[], truth: Truth, start: Matrix, seconds: number): Row => {
  const { rms, max, segments, panels: scored } = scoreTrace(panels, truth);
  const corners = scored.map(({ traced: { outline }, name: panel }) => {
    const real = truth.panels.find((one) => one.name === panel)!;
    const exact = alignRigidly(samplesOf(outline, SAMPLES), nearestOn(real.outline), start);
    return cornersOff(transformPath(outline, exact), real);
  });
  return { name, closed: scored.length, rms, max, corner: Math.max(...corners), segments, seconds };
};

/** The turn and shift nearest to a map that is almost one, exact at a place. */
const rigidPart = (m: Matrix, at: { readonly x: number; readonly y: number }): Matrix => {
  const to = transformPoint(at, m);
  const angle = Math.atan2(m.b - m.c, m.a + m.d);
  return compose(translation(to.x, to.y), compose(rotation(angle), translation(-at.x, -at.y)));
};

const printRow = (title: string, row: Row, ours: Row, { panels }: Truth): void => {
  const lengths = row.closed === 0 ? ['-', '-', '-'] : [row.rms, row.max, row.corner].map((value) => value.toFixed(4));
  console.log(
    title.padEnd(17) +
      row.name.padEnd(16) +
      `${row.closed}/${panels.length}`.padStart(7) +
      lengths[0]!.padStart(10) +
      lengths[1]!.padStart(10) +
      lengths[2]!.padStart(11) +
      (row.closed === 0 ? '-' : `${row.segments}`).padStart(10) +
      row.seconds.toFixed(2).padStart(8) +
      (row.closed === 0 ? '-' : (row.rms / ours.rms).toFixed(1)).padStart(18),
  );
};
