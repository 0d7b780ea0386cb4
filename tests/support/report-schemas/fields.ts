/** What reports have in common. Lengths are millimetres with 3 decimals, as the names of keys say. */
import { z } from 'zod';

export const mm = z.number();
export const degrees = z.number();
export const count = z.int().min(0);
export const panel = z.string().min(1).describe('a panel, by its name');
export const edge = z.string().min(1).describe('an edge: top, bottom, or the seam that it belongs to');
export const seam = z.string().min(1).describe('a seam, by its name');
export const level = z.string().min(1).describe('a level, by its name or as it was typed');
export const side = z.enum(['left', 'right']).describe("the wearer's, where left and right are drawn separately");
export const half = side.describe('where only one side was looked at: the lengths are of that half');
export const hash = z
  .string()
  .regex(/^[0-9a-f]+$/)
  .describe('hash of the shape');

const finding = z
  .strictObject({
    weight: z.enum(['error', 'warning', 'note']),
    kind: z
      .string()
      .regex(/^[a-z][a-z-]*$/)
      .describe('a short stable name'),
    where: z.string().describe('the place, in words'),
    message: z.string(),
    cure: z.string().optional().describe('what to do about it'),
  })
  .describe('something that a maker should know');

const findings = z.array(finding).describe('what a maker should know');

/** A whole report: what it says of its own, and what was found on the way. */
export const report = <Shape extends z.ZodRawShape>(says: string, shape: Shape) =>
  z.strictObject({ findings, ...shape }).describe(says);

export const levelChange = z.strictObject({
  level,
  half: half.optional(),
  before_mm: mm.describe('round the body, along the level where it lay'),
  after_mm: mm.describe('along the level where it lies now'),
  change_mm: mm,
});

const edgeChange = z.strictObject({
  panel,
  edge,
  before_mm: mm.describe('length along the edge'),
  after_mm: mm,
});

/** What every alteration tells of the shape. */
export const shape = {
  levels: z.array(levelChange).describe('at each named level that all panels reach, from the highest down'),
  edges: z.array(edgeChange).describe('those that changed'),
};

/** Where levels lie, above the line on which the waist lay. */
export const heights = z.array(z.strictObject({ level, before_mm: mm, after_mm: mm }));
