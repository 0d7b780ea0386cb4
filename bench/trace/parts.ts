import { findMarks } from '../../src/scan/marks/find-marks.ts';
import { traceOutline } from '../../src/scan/outline/trace-outline.ts';
import { panelOutlines } from '../../src/scan/panel-outlines.ts';
import { readPicture } from '../../src/scan/read-picture.ts';
import { findOutlines } from '../../src/scan/rough/find-outlines.ts';
import { reducePicture, workingStep } from '../../src/scan/rough/reduce-picture.ts';
import { nominalScale } from '../../src/scan/scale/nominal-scale.ts';
import { trueScale } from '../../src/scan/scale/true-scale.ts';

const SQUARE = 50;

/** Where the time goes in one scan: the steps of `trace`, each timed by itself, once. */
export const measureParts = async (file: string, title: string): Promise<void> => {
  const spent = new Map<string, number>();
  const timed = <T>(part: string, work: () => T): T => {
    const began = performance.now();
    const done = work();
    spent.set(part, (spent.get(part) ?? 0) + (performance.now() - began) / 1000);
    return done;
  };
  const began = performance.now();
  const scan = await readPicture(file, title);
  spent.set('reading', (performance.now() - began) / 1000);
  const { picture } = scan;
  const nominal = nominalScale(picture, { file: scan.dpi });
  const { pxPerMm } = nominal;
  const found = timed('finding outlines', () => findOutlines(picture, pxPerMm));
  timed('  reducing alone', () => reducePicture(picture, workingStep(pxPerMm)));
  const { squares } = timed('scale', () => trueScale(scan, found.outlines, { testSquare: SQUARE }, nominal));
  for (const panel of panelOutlines(found.outlines, pxPerMm, squares)) {
    const traced = timed('outlines', () => traceOutline(picture, panel.outline, pxPerMm))!;
    timed('marks', () => findMarks(picture, found.working, traced.path, found.kind, pxPerMm, traced.lineWidth));
  }
  const parts = [...spent].map(([part, seconds]) => `${part} ${seconds.toFixed(2)}`);
  console.log(`${title}: ${parts.join(', ')} s`);
};
