import { z } from 'zod';
import { StaywrightError } from '../errors.ts';
import { CORNER_NAMES } from '../labelling/label-answers.ts';
import { jsonTrouble } from './json-trouble.ts';
import type { LabelOptions } from './label-options.ts';

const length = z
  .string()
  .regex(/^[+-]?[\d.\s/-]+\s*(mm|cm|in)$/, 'write a length with its unit, like 210mm or 8 1/4in')
  .describe('a length with its unit: 210mm, 21cm, 8.25in or 8 1/4in');

const name = z.string().min(1);

/** The answers to `label`'s questions as a JSON file gives them: the same words as its options. */
export const labelSchema = z
  .strictObject({
    $schema: z.string().optional(),
    name: name.optional().describe('name of the pattern'),
    line: z.enum(['cutting', 'stitching']).optional().describe('which line is drawn: where you cut, or where you sew'),
    panels: z.array(name).min(1).optional().describe('from centre front to centre back'),
    seams: z.array(name).min(2).optional().describe('from centre front to centre back, one more than panels'),
    pieces: z.enum(['pairs', 'single']).optional().describe('a half pattern, or left and right drawn separately'),
    units: z.enum(['mm', 'in']).optional().describe('what reports are shown in'),
    cf: z.enum(['left', 'right']).optional().describe('the side of the drawing on which centre front lies'),
    flip: z.array(name).optional().describe('panels that are drawn mirrored'),
    turn: z.record(name, z.number()).optional().describe('by panel: degrees to turn it by, clockwise'),
    corners: z
      .record(name, z.partialRecord(z.enum(CORNER_NAMES), z.tuple([length, length])))
      .optional()
      .describe('by panel: where a corner lies on the drawing, from its upper left'),
    levels: z
      .record(name, z.union([z.string().min(1), z.record(name, length), z.literal(true)]))
      .optional()
      .describe('by level: waist+7in, or by panel the length down from its highest point, or true where it is drawn'),
  })
  .describe('Answers for staywright label');

/** The options that an answers file stands for. Throws `input`, naming the file and the place in it, for anything else. */
export const labelFlags = (json: unknown, file: string): LabelOptions => {
  const checked = labelSchema.safeParse(json);
  if (!checked.success) {
    const { message, near } = jsonTrouble(checked.error, json, Object.keys(labelSchema.shape));
    const hint = near === undefined ? 'staywright help label shows what such a file holds' : `did you mean ${near}?`;
    throw new StaywrightError('input', message, { where: file, hint });
  }
  const { $schema: _, turn, corners, levels, ...plain } = checked.data;
  const flags = {
    ...plain,
    turn: turn && Object.entries(turn).map(([panel, degrees]) => `${panel}=${degrees}`),
    corner:
      corners &&
      Object.entries(corners).flatMap(([panel, places]) =>
        Object.entries(places).map(([corner, [x, y]]) => `${panel}=${corner}:${x},${y}`),
      ),
    level:
      levels &&
      Object.entries(levels).map(([level, where]) => (where === true ? level : `${level}=${levelText(where)}`)),
  };
  return Object.fromEntries(Object.entries(flags).filter(([, value]) => value !== undefined));
};

const levelText = (where: string | Readonly<Record<string, string>>): string =>
  typeof where === 'string'
    ? where
    : Object.entries(where)
        .map(([panel, down]) => `${panel}:${down}`)
        .join(',');
