import { parseSquareSide } from '../cli/parse-square-side.ts';
import { usage } from '../errors.ts';
import { parseDpi } from '../scan/scale/parse-dpi.ts';
import type { PictureKind } from '../scan/rough-outline.ts';
import type { TraceAnswers } from '../scan/trace-answers.ts';

export const PICTURE_KINDS = ['line', 'cutout'] as const;

/** What was typed about a scan. */
export interface TraceOptions {
  readonly testSquare?: string | undefined;
  readonly dpi?: string | undefined;
  readonly kind?: string | undefined;
}

export const traceAnswers = ({ testSquare, dpi, kind }: TraceOptions): TraceAnswers => ({
  ...(testSquare === undefined ? {} : { testSquare: parseSquareSide(testSquare) }),
  ...(dpi === undefined ? {} : { dpi: parseDpi(dpi) }),
  ...(kind === undefined ? {} : { kind: kindOf(kind) }),
});

const kindOf = (typed: string): PictureKind => {
  const kind = PICTURE_KINDS.find((known) => known === typed);
  if (kind !== undefined) return kind;
  throw usage(`'${typed}' is not line or cutout`, '--kind', 'line: printed outlines; cutout: pieces cut out of paper');
};
