import type { Job } from '../cli/job.ts';
import type { WantedFile } from '../cli/plan-files.ts';
import { withProgress } from '../cli/progress.ts';
import { usage } from '../errors.ts';
import { inverse } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import type { Finding } from '../pattern/finding.ts';
import { marksThrough } from '../scan/found-marks.ts';
import { previewPicture } from '../scan/preview.ts';
import { readPicture, type Scan } from '../scan/read-picture.ts';
import type { TraceAnswers } from '../scan/trace-answers.ts';
import { traceJoined, type JoinMisfit } from '../scan/trace-joined.ts';
import { scaleScan, tracePanels, type Say } from '../scan/trace-picture.ts';
import type { Traced } from '../scan/traced.ts';

/** What was traced in one scan, or in several that were joined. */
export interface ScanTraced {
  readonly names: readonly string[];
  readonly traced: Traced;
  readonly misfit?: JoinMisfit;
}

export interface TracedScans {
  /** What the drawing is called: the first scan's name without folder and ending. */
  readonly name: string;
  readonly scans: readonly ScanTraced[];
  readonly previews: readonly WantedFile[];
  readonly findings: readonly Finding[];
}

/** Traces scans one after the other, or joined as one; `preview` names the picture to judge the result by. */
export const traceScans = (
  paths: readonly string[],
  answers: TraceAnswers,
  { join, preview }: { readonly join: boolean; readonly preview?: string },
  job: Job,
): Promise<TracedScans> => {
  if (join && paths.length < 2) {
    throw usage('there is only one scan to join', '--join', 'name all parts of the sheet: trace a.png b.png --join');
  }
  if (preview !== undefined && !/\.png$/i.test(preview)) {
    throw usage(`${preview || 'no name'} does not end in .png`, '--preview', 'name it preview.png');
  }
  return withProgress(async (say) => {
    const scans: ScanTraced[] = [];
    const previews: WantedFile[] = [];
    const findings: Finding[] = [];
    const look = async (scan: Scan, traced: Traced): Promise<void> => {
      if (preview === undefined) return;
      const path = join || paths.length === 1 ? preview : numbered(preview, previews.length + 1);
      say('drawing the preview');
      previews.push({ path, bytes: await previewOf(scan, traced) });
    };
    const read = async (path: string): Promise<Scan> => {
      const { name, source } = await job.findPicture(path);
      say(`reading ${name}`);
      const scan = await readPicture(source, name);
      findings.push(...scan.notes.map((note) => noted(name, note)));
      return scan;
    };
    if (join) {
      const parts: Scan[] = [];
      for (const path of paths) parts.push(await read(path));
      const { scan, traced, misfit } = traceJoined(parts, answers, say);
      scans.push({ names: parts.map(({ name }) => name), traced, misfit });
      await look(scan, traced);
    } else {
      for (const path of paths) {
        const scan = await read(path);
        const traced = traceOne(scan, answers, say);
        scans.push({ names: [scan.name], traced });
        await look(scan, traced);
      }
    }
    return { name: stemOf(scans[0]!.names[0]!), scans, previews, findings };
  }, job.shared);
};

const traceOne = (scan: Scan, answers: TraceAnswers, say: Say): Traced => {
  say(`finding outlines in ${scan.name}`);
  return tracePanels(scan, scaleScan(scan, answers), say);
};

const noted = (where: string, message: string): Finding => ({ weight: 'note', kind: 'scan', where, message });

const stemOf = (path: string): string => path.replace(/^.*[/\\]/, '').replace(/\.[^.]*$/, '');

const numbered = (path: string, number: number): string => path.replace(/(\.\w+)$/, `-${number}$1`);

/** What was traced, back in the picture's places, over the picture. */
const previewOf = ({ picture }: Scan, { panels, scale, square }: Traced): Promise<Uint8Array> => {
  const back = inverse(scale.toMm);
  const path = (one: Path): Path => transformPath(one, back);
  const point = (one: Point): Point => transformPoint(one, back);
  const pxPerMm = Math.sqrt(Math.abs(back.a * back.d - back.b * back.c));
  return previewPicture(picture, {
    pxPerMm,
    panels: panels.map(({ outline, corners, within, marks }) => ({
      outline: path(outline),
      corners: corners.map(point),
      within: within.map(path),
      marks: marksThrough(marks, back),
    })),
    ...(square === undefined ? {} : { square: square.map(point) }),
  });
};
