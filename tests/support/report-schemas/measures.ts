import { z } from 'zod';
import { degrees, level, mm, panel, report, seam, side } from './fields.ts';

export const girth = report('What staywright girth measured', {
  levels: z.array(
    z.strictObject({
      level,
      girth_mm: mm.describe('round the body, or round the half of one side'),
      panels: z.array(z.strictObject({ panel, width_mm: mm })),
    }),
  ),
});

const gapHalf = z.strictObject({
  side,
  body_mm: mm,
  pattern_mm: mm,
  edge_to_centre_back_mm: mm.describe('from the laced edge to the centre back of the body; negative past it'),
  needs_mm: mm,
});

export const gap = report('The lacing gap that staywright gap predicts', {
  levels: z.array(
    z.strictObject({
      level,
      body_mm: mm,
      reduction_mm: mm,
      gap_wanted_mm: mm,
      wanted_girth_mm: mm.describe('body - reduction - gap wanted'),
      pattern_girth_mm: mm,
      predicted_gap_mm: mm.describe('body - reduction - pattern'),
      needs_mm: mm.describe('what to add round the body; negative to take away'),
      halves: z.array(gapHalf).optional().describe('where left and right of the body differ'),
    }),
  ),
  evenness_mm: mm.describe('the widest less the narrowest gap'),
  shape: z
    .string()
    .regex(/^(even|wider at .+|narrower at the waist)$/)
    .describe('of the opening, from behind'),
  over_tenth: z.array(level).describe('where the reduction is over a tenth of the body'),
});

const walkedEdge = z.strictObject({
  panel,
  above_mm: mm.optional().describe('above the waist, where the seam crosses it'),
  below_mm: mm.optional(),
  whole_mm: mm,
  top_degrees: degrees.describe('the inside angle at its upper end'),
  bottom_degrees: degrees,
  notches_mm: z.array(mm).describe('up along the edge from where both are matched'),
});

export const walk = report('What staywright walk found along each seam', {
  tolerance_mm: mm,
  matches: z.boolean(),
  seams: z.array(
    z.strictObject({
      seam,
      side: side.optional(),
      matched_at: z.enum(['waist', 'top', 'bottom']),
      edges: z.array(walkedEdge),
      differences: z
        .array(z.strictObject({ part: z.enum(['above', 'below', 'whole']), by_mm: mm }))
        .describe('by how much the first edge is longer than the second'),
      notches: z.array(z.strictObject({ one_mm: mm, other_mm: mm, apart_mm: mm })).describe('those that pair'),
      top_sum_degrees: degrees.optional().describe('180 where the line runs on smoothly'),
      bottom_sum_degrees: degrees.optional(),
    }),
  ),
  alone: z.array(z.string()).describe('seams of one edge'),
});
