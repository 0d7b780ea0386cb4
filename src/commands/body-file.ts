import { z } from 'zod';
import { parseLength } from '../cli/parse-length.ts';
import type { BodyHalves } from '../measure/gap-halves.ts';
import { StaywrightError } from '../errors.ts';
import { jsonTrouble } from './json-trouble.ts';

const length = z.string().min(1).describe('a length with its unit: 717mm, 71.7cm, 28in or 28 1/4in');

const wishes = {
  reduction: length.optional().describe('how much smaller than the body the laced garment is meant to be'),
  gap: length.optional().describe('the opening wanted between the laced edges'),
};

/** A body as its file gives it: girths by level, and what is wished for at each. */
export const bodySchema = z
  .strictObject({
    $schema: z.string().optional(),
    name: z.string().min(1).describe('whose body it is'),
    source: z.string().optional().describe('who measured it, or where the figures are from'),
    levels: z
      .record(
        z.string().min(1),
        z.union([
          length,
          z.strictObject({ girth: length.describe("the body's girth at this level"), ...wishes }),
          z.strictObject({
            left: length.describe('the left half at this level, from centre front to centre back'),
            right: length.describe('the right half'),
            ...wishes,
          }),
        ]),
      )
      .refine((levels) => Object.keys(levels).length > 0, 'no level is given')
      .describe(
        'by level, as it is called on the pattern: the girth alone, or girth (or left and right), reduction and gap',
      ),
  })
  .describe('A body for staywright gap');

interface BodyLevel {
  readonly level: string;
  /** Millimetres, as all the others. */
  readonly girth: number;
  readonly halves?: BodyHalves;
  readonly reduction?: number;
  readonly gap?: number;
}

export interface Body {
  readonly name: string;
  readonly source?: string;
  readonly levels: readonly BodyLevel[];
}

/** A body from its checked file. Throws `input`, naming the file and the place in it, for anything else. */
export const parseBody = (json: unknown, file: string): Body => {
  const checked = bodySchema.safeParse(json);
  if (!checked.success) {
    const { message, near } = jsonTrouble(checked.error, json, KEYS);
    throw new StaywrightError('input', message, {
      where: file,
      hint: near === undefined ? HINT : `did you mean ${near}?`,
    });
  }
  const { name, source, levels } = checked.data;
  const read = Object.entries(levels).map(([level, wanted]) => readLevel(level, wanted, file));
  return { name, ...(source === undefined ? {} : { source }), levels: read };
};

const KEYS = ['name', 'source', 'levels', 'girth', 'left', 'right', 'reduction', 'gap'];

const HINT =
  'a body is like {"name": "Ada", "levels": {"bust": "36in", "waist": {"girth": "28in", "reduction": "2in"}}}';

type Wanted = z.infer<typeof bodySchema>['levels'][string];

const readLevel = (level: string, wanted: Wanted, file: string): BodyLevel => {
  const parts = typeof wanted === 'string' ? { girth: wanted } : wanted;
  const lengths = Object.entries(parts).map(([part, text]) => [
    part,
    parseLength(text ?? '', `${file}: ${level} ${part}`),
  ]);
  const { girth, left, right, ...wished }: Partial<Record<string, number>> = Object.fromEntries(lengths);
  const sizes = girth === undefined ? [left!, right!] : [girth];
  if (sizes.some((size) => size <= 0)) {
    throw new StaywrightError('input', `the girth at ${level} must be more than nothing`, { where: file });
  }
  const halves = girth === undefined ? { halves: { left: left!, right: right! } } : {};
  return { level, girth: girth ?? left! + right!, ...halves, ...wished };
};
