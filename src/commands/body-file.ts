import { z } from 'zod';
import { parseLength } from '../cli/parse-length.ts';
import { StaywrightError } from '../errors.ts';
import { jsonTrouble } from './json-trouble.ts';

const length = z.string().min(1).describe('a length with its unit: 717mm, 71.7cm, 28in or 28 1/4in');

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
          z.strictObject({
            girth: length.describe("the body's girth at this level"),
            reduction: length.optional().describe('how much smaller than the body the laced garment is meant to be'),
            gap: length.optional().describe('the opening wanted between the laced edges'),
          }),
        ]),
      )
      .refine((levels) => Object.keys(levels).length > 0, 'no level is given')
      .describe('by level, as it is called on the pattern: the girth alone, or girth, reduction and gap'),
  })
  .describe('A body for staywright gap');

interface BodyLevel {
  readonly level: string;
  /** Millimetres, as all the others. */
  readonly girth: number;
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

const KEYS = ['name', 'source', 'levels', 'girth', 'reduction', 'gap'];

const HINT =
  'a body is like {"name": "Ada", "levels": {"bust": "36in", "waist": {"girth": "28in", "reduction": "2in"}}}';

type Wanted = z.infer<typeof bodySchema>['levels'][string];

const readLevel = (level: string, wanted: Wanted, file: string): BodyLevel => {
  const parts = typeof wanted === 'string' ? { girth: wanted } : wanted;
  const lengths = Object.entries(parts).map(([part, text]) => [
    part,
    parseLength(text ?? '', `${file}: ${level} ${part}`),
  ]);
  const read: Omit<BodyLevel, 'level'> = Object.fromEntries(lengths);
  if (read.girth <= 0) {
    throw new StaywrightError('input', `the girth at ${level} must be more than nothing`, { where: file });
  }
  return { level, ...read };
};
