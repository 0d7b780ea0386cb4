import { z } from 'zod';
import { count, degrees, half, hash, level, mm, panel, report, seam, side } from './fields.ts';

const both = (unit: string) =>
  z
    .strictObject({ before: z.number().nullable(), after: z.number().nullable(), change: z.number().nullable() })
    .describe(`${unit}; null in a version that has none`);

const bothMm = both('millimetres');
const bothDegrees = both('degrees');

const version = z.strictObject({
  file: z.string(),
  name: z.string(),
  hash,
  only_in_its_record: z.array(z.string()).describe('the changes that the other version has not'),
});

const comparedEdge = z.strictObject({
  edge: z.string(),
  place: z.enum(['front', 'back', 'top', 'bottom', 'other']),
  found: z.enum(['same', 'redrawn', 'other ends', 'moved']),
  apart_mm: mm.describe('the greatest distance between the two lines where they run beside each other'),
  height_mm: mm.nullable().describe('how high above the waist that is'),
  at_end: z.string().optional().describe('the edge that is met there, where it is within 3 mm of an end'),
  most_mm: mm.describe('that move with its direction: outwards of a seam, upwards of top and bottom'),
  levels: z.array(z.strictObject({ level, outwards_mm: mm.nullable() })).optional(),
  ends: z.array(z.strictObject({ at: z.string(), up_mm: mm, outwards_mm: mm, longer_mm: mm })),
  length_mm: bothMm,
  allowance_mm: bothMm,
  allowance_corners: z.strictObject({ before: z.string().nullable(), after: z.string().nullable() }),
});

const comparedPanel = z.strictObject({
  panel,
  side: side.optional(),
  after_moved_by_mm: z.strictObject({ across: z.number(), down: z.number() }),
  edges: z.array(comparedEdge),
  levels: z.array(z.strictObject({ level, height_mm: bothMm, width_mm: bothMm })),
  corners: z.array(z.strictObject({ edge: z.string(), next: z.string(), angle_degrees: bothDegrees })),
  notches: z.array(
    z.union([
      z.strictObject({ edge: z.string(), above_waist_mm: bothMm }),
      z.strictObject({ edge: z.string(), along_edge_mm: bothMm }),
    ]),
  ),
  grain_leans_degrees: bothDegrees,
  bones: z.strictObject({
    before: z.int().min(0).optional(),
    after: z.int().min(0).optional(),
    apart_mm: mm,
  }),
  openings: z
    .array(
      z.strictObject({
        gusset: panel,
        edge: z.string().optional(),
        above_waist_mm: bothMm,
        length_mm: bothMm,
        apart_mm: mm,
      }),
    )
    .describe('where gussets are set in'),
});

export const compare = report('What staywright compare found between two versions', {
  same: z.boolean(),
  before: version,
  after: version,
  laid_by: z.enum(['own coordinates', 'waist']),
  line: z.enum(['cutting', 'stitching']),
  half: half.optional(),
  panels: z.array(comparedPanel),
  gussets: z.strictObject({ only_before: z.array(panel), only_after: z.array(panel) }),
  seams: z.array(
    z.strictObject({
      seam,
      side: side.optional(),
      edges: z.array(z.strictObject({ panel, above_mm: bothMm, below_mm: bothMm, whole_mm: bothMm })),
      differences: z.array(z.strictObject({ part: z.enum(['above', 'below', 'whole']), by_mm: bothMm })),
    }),
  ),
  levels: z.array(z.strictObject({ level, girth_mm: bothMm })),
});

const fact = { of: z.string().describe('what it is said of'), what: z.string() };

export const describe = z
  .union([
    report('What staywright describe says of a sheet', {
      facts: z.array(
        z.union([
          z.strictObject({ ...fact, length_mm: mm }),
          z.strictObject({ ...fact, angle_degrees: degrees }),
          z.strictObject({ ...fact, count }),
          z.strictObject({ ...fact, word: z.string() }),
        ]),
      ),
      changes: z.array(z.strictObject({ step: z.int().min(1), command: z.string() })),
    }),
    report('What staywright describe --git-setup prints', { script: z.string() }),
  ])
  .describe('What staywright describe says');

const step = {
  step: z.int().min(1),
  command: z.string().describe('as typed, without files'),
  version: z.string().describe('of staywright'),
  before: hash.nullable().describe('hash of the shape; null where there was a plain drawing'),
  after: hash,
  other: hash.optional().describe('hash of the sheet that parts were taken from'),
  girth_mm: z
    .record(z.string(), z.strictObject({ before: mm.nullable(), after: mm }))
    .describe('by level, round the body'),
};

const ends = hash.nullable().describe('hash of the shape that the steps leave');

export const record = z
  .union([
    report('The changes that staywright record tells', {
      name: z.string(),
      original: hash.nullable().describe('hash of the shape that the steps begin with; null for a drawing'),
      steps: z.array(z.strictObject(step)),
      ends_with: ends,
    }),
    report('What staywright record --verify found', {
      name: z.string(),
      original: hash.nullable(),
      steps: z.array(
        z.strictObject({
          ...step,
          result: z.enum(['same', 'joined', 'measured', 'differs', 'refused', 'broken', 'not run']),
          now: hash.optional().describe('hash of what the step gave'),
          reason: z.string().optional(),
        }),
      ),
      ends_with: ends,
      sheet: hash.describe('hash of the sheet itself'),
      same: z.boolean(),
    }),
  ])
  .describe('What staywright record tells');
