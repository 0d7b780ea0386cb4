import type { Report } from '../cli/command.ts';
import type { Job } from '../cli/job.ts';
import type { DrawingRead } from '../cli/read-sheet.ts';
import { isFolder } from '../cli/stats-of.ts';
import { usage } from '../errors.ts';
import { readSvg } from '../svg/read-svg.ts';
import { writeDrawing } from '../svg/write-drawing.ts';
import { nameTraced } from './name-traced.ts';
import { traceAnswers, type TraceOptions } from './trace-answers.ts';

/** A scan that was traced, as the drawing that `trace` would have written, with what `trace` would have said. */
export interface ScanRead extends DrawingRead {
  readonly report: Report;
}

/** The input traced, where it is a scan; undefined for anything else, which is then still to be read. */
export const traceFirst = async (options: TraceOptions, job: Job): Promise<ScanRead | undefined> => {
  const path = job.input ?? '-';
  if (path !== '-' && isFolder(path)) return undefined;
  const { beginning } = await job.findPicture(path);
  const { pictureFormat } = await import('../scan/reading/picture-format.ts');
  if (pictureFormat(beginning).kind !== 'read') {
    if (options.dpi === undefined) return undefined;
    throw usage(
      'only a scan has pixels to the inch',
      '--dpi',
      'correct the size of a drawing with --scale or --test-square',
    );
  }
  const { scale, within, side } = job.shared;
  const idle = [scale && '--scale', within && '--within', side && '--side'].find(Boolean);
  if (idle !== undefined)
    throw usage('a scan has none', idle, 'leave it out; say its size with --test-square or --dpi');
  const [{ traceScans }, { traceReport }] = await Promise.all([
    import('./trace-scans.ts'),
    import('./trace-report.ts'),
  ]);
  const { testSquare } = job.shared;
  const answers = traceAnswers({ ...options, testSquare });
  const { name, scans, findings } = await traceScans([path], answers, { join: false }, job);
  const named = nameTraced(
    scans.map(({ traced }) => traced),
    undefined,
  );
  const reading = readSvg(writeDrawing(name, named.drawn), name);
  if (reading.kind === 'sheet') throw new Error('a traced drawing is no sheet');
  return {
    kind: 'drawing',
    drawing: { ...reading.drawing, name },
    findings: [...findings, ...scans.flatMap(({ traced }) => traced.findings)],
    report: traceReport(scans, named, job.shared.units ?? 'mm'),
  };
};
