import { findMarks } from '../../src/scan/marks/find-marks.ts';
import { traceOutline } from '../../src/scan/outline/trace-outline.ts';
import { panelOutlines } from '../../src/scan/panel-outlines.ts';
import { readPicture } from '../../src/scan/read-picture.ts';
import { findOutlines } from '../../src/scan/rough/find-outlines.ts';
import { reducePicture, workingStep } from '../../src/scan/rough/reduce-picture.ts';
import { nominalScale } from '../../src/scan/scale/nominal-scale.ts';
import { trueScale } from '../../src/scan/scale/true-scale.ts';

const SQUARE = 50;

/** Where the time goes in one scan: the steps of `trace`, each once, in seconds that the processor was busy with them. */
export const measureParts = async (file: string, title: string): Promise<void> => {
  const spent = new Map<string, number>();
  const timed = async <T>(part: string, work: () => T | Promise<T>): Promise<T> => {
    const began = process.cpuUsage();
    const done = await work();
    const { user, system } = process.cpuUsage(began);
    spent.set(part, (spent.get(part) ?? 0) + (user + system) / 1e6);
    return done;
  };
  const scan = await timed('reading', () => readPicture(file, title));
  const { picture } = scan;
  const nominal = nominalScale(picture, { file: scan.dpi });
  const { pxPerMm } = nominal;
  const { outlines, working, kind } = await timed('finding outlines', () => findOutlines(picture, pxPerMm));
  const { squares } = await timed('scale', () => trueScale(scan, outlines, { testSquare: SQUARE }, nominal));
  for (const { outline } of panelOutlines(outlines, pxPerMm, squares)) {
    const traced = (await timed('outlines', () => traceOutline(picture, outline, pxPerMm)))!;
    await timed('marks', () => findMarks(picture, working, traced.path, kind, pxPerMm, traced.lineWidth));
  }
  await timed('(of finding outlines: making it smaller)', () => reducePicture(picture, workingStep(pxPerMm)));
  const parts = [...spent].map(([part, seconds]) => `${part} ${seconds.toFixed(2)}`);
  console.log(`${title}: ${parts.join(', ')}`);
};
