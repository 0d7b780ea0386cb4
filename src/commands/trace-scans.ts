import type { Job } from '../cli/job.ts';
import { planFiles, type WantedFile } from '../cli/plan-files.ts';
import { withProgress } from '../cli/progress.ts';
import type { PictureFile } from '../cli/read-file.ts';
import { withEnding } from '../cli/with-ending.ts';
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
  /** What the drawing is called: the first scan's name without folder and ending, `traced` where it has none. */
  readonly name: string;
  readonly scans: readonly ScanTraced[];
  readonly previews: readonly WantedFile[];
  readonly findings: readonly Finding[];
}

/** How scans are taken, and what will be written: a drawing, and `preview`, the picture to judge the result by. */
export interface TraceWishes {
  readonly join: boolean;
  readonly preview?: string;
  readonly output?: string;
}

/** Traces scans one after the other, or joined as one. All names are looked at first: nobody should wait to be told of a slip. */
export const traceScans = async (
  paths: readonly string[],
  answers: TraceAnswers,
  { join, preview, output }: TraceWishes,
  job: Job,
): Promise<TracedScans> => {
  if (join && paths.length < 2) {
    throw usage('there is only one scan to join', '--join', 'name all parts of the sheet: trace a.png b.png --join');
  }
  if (paths.filter((path) => path === '-').length > 1) {
    throw usage('standard input holds one scan', '-', 'name the others as files');
  }
  const shown = preview === undefined ? [] : previewNames(preview, join ? 1 : paths.length);
  const drawn = output === undefined || output === '-' ? [] : [withEnding(output, '.svg', '-o')];
  const files: PictureFile[] = [];
  for (const path of paths) files.push(await job.findPicture(path));
  const { force = false } = job.shared;
  planFiles(
    [...drawn, ...shown].map((path) => ({ path, bytes: '' })),
    { inputs: job.inputs, force },
  );
  return withProgress(async (say) => {
    const scans: ScanTraced[] = [];
    const previews: WantedFile[] = [];
    const findings: Finding[] = [];
    const look = async (scan: Scan, traced: Traced): Promise<void> => {
      const path = shown[previews.length];
      if (path === undefined) return;
      say('drawing the preview');
      const before = scans.slice(0, -1).reduce((sum, one) => sum + one.traced.panels.length, 0);
      previews.push({ path, bytes: await previewOf(scan, traced, before + 1) });
    };
    const read = async ({ name, source }: PictureFile): Promise<Scan> => {
      say(`reading ${name}`);
      const scan = await readPicture(source, name);
      findings.push(...scan.notes.map((note) => noted(name, note)));
      return scan;
    };
    if (join) {
      const parts: Scan[] = [];
      for (const file of files) parts.push(await read(file));
      const { scan, traced, misfit } = traceJoined(parts, answers, say);
      scans.push({ names: parts.map(({ name }) => name), traced, misfit });
      await look(scan, traced);
    } else {
      for (const file of files) {
        const scan = await read(file);
        const traced = traceOne(scan, answers, say);
        scans.push({ names: [scan.name], traced });
        await look(scan, traced);
      }
    }
    return { name: paths[0] === '-' ? 'traced' : stemOf(paths[0]!), scans, previews, findings };
  }, job.shared);
};

const traceOne = (scan: Scan, answers: TraceAnswers, say: Say): Traced => {
  say(`finding outlines in ${scan.name}`);
  return tracePanels(scan, scaleScan(scan, answers), say);
};

const noted = (where: string, message: string): Finding => ({ weight: 'note', kind: 'scan', where, message });

const stemOf = (path: string): string => path.replace(/^.*[/\\]/, '').replace(/\.[^.]*$/, '');

/** `preview.png`, or `preview-1.png` and so on for several scans. */
const previewNames = (preview: string, count: number): string[] => {
  const path = withEnding(preview, '.png', '--preview');
  if (count === 1) return [path];
  return Array.from({ length: count }, (_, at) => path.replace(/(\.\w+)$/, `-${at + 1}$1`));
};

/** What was traced, back in the picture's places, over the picture. */
const previewOf = ({ picture }: Scan, { panels, scale, square }: Traced, first: number): Promise<Uint8Array> => {
  const back = inverse(scale.toMm);
  const path = (one: Path): Path => transformPath(one, back);
  const point = (one: Point): Point => transformPoint(one, back);
  const pxPerMm = Math.sqrt(Math.abs(back.a * back.d - back.b * back.c));
  return previewPicture(picture, {
    pxPerMm,
    first,
    panels: panels.map(({ outline, corners, within, marks }) => ({
      outline: path(outline),
      corners: corners.map(point),
      within: within.map(path),
      marks: marksThrough(marks, back),
    })),
    ...(square === undefined ? {} : { square: square.map(point) }),
  });
};
