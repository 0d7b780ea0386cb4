import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

const MM = 25.4 / 72;

export interface Place {
  readonly x: number;
  readonly y: number;
}

/** One painted run of a path as a reader of PDFs understands it: in millimetres from the page's top left corner. */
export interface DrawnPath {
  readonly points: readonly Place[];
  readonly closed: boolean;
  readonly filled: boolean;
  /** How many forms it was drawn within. */
  readonly depth: number;
  readonly lineWidth: number;
  readonly dash: readonly number[];
}

interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly paths: readonly DrawnPath[];
  readonly text: string;
}

export interface ReadDocument {
  /** Of pages, whether all were read or not. */
  readonly count: number;
  readonly pages: readonly ReadPage[];
  readonly preferences: Readonly<Record<string, unknown>>;
  readonly info: Readonly<Record<string, unknown>>;
}

/** Reads a PDF, or `every` so many of its pages, with pdfjs: an implementation that has nothing in common with the one that wrote it. */
export const readPdf = async (bytes: Uint8Array, every = 1): Promise<ReadDocument> => {
  const task = getDocument({ data: bytes.slice(), verbosity: 0 });
  const document = await task.promise;
  const count = document.numPages;
  const pages: ReadPage[] = [];
  for (let number = 1; number <= count; number += every) {
    const page = await document.getPage(number);
    const [minX = 0, minY = 0, maxX = 0, maxY = 0] = page.view;
    const { fnArray, argsArray } = await page.getOperatorList();
    const content = await page.getTextContent();
    pages.push({
      width: (maxX - minX) * MM,
      height: (maxY - minY) * MM,
      paths: pathsOf(fnArray, argsArray, maxY),
      text: content.items.map((item) => ('str' in item ? item.str + (item.hasEOL ? '\n' : '') : '')).join(''),
    });
  }
  const preferences = ((await document.getViewerPreferences()) ?? {}) as Record<string, unknown>;
  const { info } = await document.getMetadata();
  await task.destroy();
  return { count, pages, preferences, info: info as Record<string, unknown> };
};

type Six = readonly [number, number, number, number, number, number];

interface State {
  readonly matrix: Six;
  readonly lineWidth: number;
  readonly dash: readonly number[];
}

const FILLS = new Set([OPS.fill, OPS.eoFill]);
const STROKES = new Set([OPS.stroke, OPS.closeStroke]);

const pathsOf = (operators: readonly number[], operands: readonly unknown[], top: number): DrawnPath[] => {
  const drawn: DrawnPath[] = [];
  const stack: State[] = [];
  let state: State = { matrix: [1, 0, 0, 1, 0, 0], lineWidth: 1, dash: [] };
  let depth = 0;
  operators.forEach((operator, index) => {
    const args = operands[index] as unknown[];
    if (operator === OPS.save) stack.push(state);
    else if (operator === OPS.restore) state = stack.pop()!;
    else if (operator === OPS.transform) state = { ...state, matrix: within(state.matrix, args as unknown as Six) };
    else if (operator === OPS.paintFormXObjectBegin) {
      stack.push(state);
      depth++;
      if (args[0]) state = { ...state, matrix: within(state.matrix, args[0] as Six) };
    } else if (operator === OPS.paintFormXObjectEnd) {
      state = stack.pop()!;
      depth--;
    } else if (operator === OPS.setLineWidth) state = { ...state, lineWidth: args[0] as number };
    else if (operator === OPS.setDash) state = { ...state, dash: args[0] as number[] };
    else if (operator === OPS.constructPath) {
      const paint = args[0] as number;
      const filled = FILLS.has(paint);
      if (!filled && !STROKES.has(paint)) return;
      const { lineWidth, dash, matrix } = state;
      for (const run of runsOf((args[1] as (Float32Array | null)[])[0] ?? new Float32Array(), matrix, top)) {
        drawn.push({ ...run, closed: run.closed || paint === OPS.closeStroke, filled, depth, lineWidth, dash });
      }
    }
  });
  return drawn;
};

const STEPS = 16;

const runsOf = (data: Float32Array, m: Six, top: number): { points: Place[]; closed: boolean }[] => {
  const runs: { points: Place[]; closed: boolean }[] = [];
  let at = 0;
  const next = (): Place => {
    const [x, y] = [data[at]!, data[at + 1]!];
    at += 2;
    return { x: (m[0] * x + m[2] * y + m[4]) * MM, y: (top - (m[1] * x + m[3] * y + m[5])) * MM };
  };
  while (at < data.length) {
    const kind = data[at++];
    const run = runs[runs.length - 1];
    if (kind === 0) runs.push({ points: [next()], closed: false });
    else if (kind === 1) run!.points.push(next());
    else if (kind === 2) {
      const [a, b, c, d] = [run!.points[run!.points.length - 1]!, next(), next(), next()];
      for (let step = 1; step <= STEPS; step++) run!.points.push(onCubic(a, b, c, d, step / STEPS));
    } else if (kind === 4) run!.closed = true;
    else throw new Error(`unknown path operation ${kind}`);
  }
  return runs;
};

const onCubic = (a: Place, b: Place, c: Place, d: Place, t: number): Place => {
  const s = 1 - t;
  const mix = (key: 'x' | 'y'): number =>
    s * s * s * a[key] + 3 * s * s * t * b[key] + 3 * s * t * t * c[key] + t * t * t * d[key];
  return { x: mix('x'), y: mix('y') };
};

/** The matrix that applies `inner` first, then `outer`. */
const within = (outer: Six, inner: Six): Six => [
  outer[0] * inner[0] + outer[2] * inner[1],
  outer[1] * inner[0] + outer[3] * inner[1],
  outer[0] * inner[2] + outer[2] * inner[3],
  outer[1] * inner[2] + outer[3] * inner[3],
  outer[0] * inner[4] + outer[2] * inner[5] + outer[4],
  outer[1] * inner[4] + outer[3] * inner[5] + outer[5],
];
