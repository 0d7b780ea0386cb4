import { z } from 'zod';
import { count, degrees, edge, heights, level, levelChange, mm, panel, report, seam, shape, side } from './fields.ts';

const moved = (says: string) =>
  report(says, {
    direction: z.enum(['in', 'out']),
    measured: z.enum(['level', 'square']).describe('along the level, or at right angles to the seam'),
    seams: z.array(
      z.strictObject({
        seam,
        lines_drawn: count.describe('stitching lines on the sheet'),
        lines_round_body: count,
        levels: z.array(
          z.strictObject({
            level,
            amount_mm: mm.describe('how far each line moves'),
            round_body_mm: mm.optional().describe('what that makes round the body'),
          }),
        ),
      }),
    ),
    ...shape,
    corners: z.array(z.strictObject({ panel, corner: z.string(), moved_mm: mm })),
  });

export const takeIn = moved('What staywright take-in moved');
export const letOut = moved('What staywright let-out moved');

export const raiseLine = report('What staywright raise-line moved', {
  raised: z.array(level),
  amount_mm: mm.describe('up; negative is down'),
  holds: z.array(level).length(2).describe('where nothing moves: above and below'),
  heights,
  old_lines: z
    .array(z.strictObject({ level, before_mm: mm, after_mm: mm }))
    .describe('round the body where the level lay before'),
  ...shape,
});

const lengthChanged = (says: string) =>
  report(says, {
    between: z.array(level).length(2),
    longer_mm: mm.describe('of the part between; negative is shorter'),
    up_mm: mm.describe('how far all above it moves up'),
    down_mm: mm.describe('how far all below it moves down'),
    heights,
    ...shape,
  });

export const lengthen = lengthChanged('What staywright lengthen changed');
export const shorten = lengthChanged('What staywright shorten changed');

export const slash = report('What staywright slash opened', {
  panel,
  from: edge,
  hinge: z.string().nullable().describe('a level or an edge; null where the slashes go right through'),
  lines: count,
  spread_mm: mm.describe('how far each opens; negative overlaps'),
  spread_in_all_mm: mm,
  parts: z.array(z.strictObject({ part: z.int().min(1), leans_to_back_degrees: degrees })),
  to_keep_the_waist: z.string().optional().describe('the command that gives the waist its width back'),
  ...shape,
});

const line = mm.optional().describe('length of the whole line: of both halves, or of the half that was looked at');

export const redrawEdge = report('What staywright redraw-edge redrew', {
  edge: z.enum(['top', 'bottom']),
  seams: z.array(
    z.strictObject({
      seam,
      side: side.optional(),
      raised_mm: mm,
      named: z.boolean().describe('whether --at names it'),
      edges: z.array(z.strictObject({ panel, before_mm: mm, after_mm: mm })),
    }),
  ),
  line_round_body_before_mm: line,
  line_round_body_after_mm: line,
  line_round_left_half_before_mm: line,
  line_round_left_half_after_mm: line,
  line_round_right_half_before_mm: line,
  line_round_right_half_after_mm: line,
  ...shape,
});

export const gusset = report('The gusset that staywright gusset made', {
  gussets: z.array(
    z.strictObject({
      panel,
      side: side.optional(),
      front_side_mm: mm,
      back_side_mm: mm,
      width_mm: mm.describe('of its base, from corner to corner'),
      apex_degrees: degrees,
      sides: z.enum(['straight', 'curved']),
      replaced: z.boolean().describe('whether one of that name was taken out'),
      openings: z.array(
        z.strictObject({
          panel,
          edge: edge.optional().describe('the seam that was opened; absent for a slit'),
          point_below_waist_mm: mm.optional(),
          length_mm: mm,
        }),
      ),
    }),
  ),
  times_round_body: z.int().min(1).max(2),
  measured_mm: z.array(mm).length(2).optional().describe('left and right, as typed'),
  levels: shape.levels,
});

export const splice = report('What staywright splice took from another version', {
  other: z.string().describe('the other sheet'),
  above: level.optional(),
  below: level.optional(),
  sizes: z.array(z.strictObject({ level, from: z.enum(['this', 'other']) })).optional(),
  blend_mm: mm.optional().describe('how far the blend reaches'),
  levels: z.array(
    levelChange.extend({
      from: z.enum(['this', 'other', 'blend']),
      other_mm: mm.nullable().describe('girth of the other'),
    }),
  ),
  edges: shape.edges,
  steps: z.array(z.strictObject({ panel, seam, outwards_mm: mm })).describe('how far seams move over the blend'),
});

export const trueSeams = report('What staywright true made equal', {
  seams: z.array(
    z.strictObject({
      seam: z.string(),
      matched_at: z.enum(['waist', 'top', 'bottom']),
      edges: z.array(
        z.strictObject({
          panel,
          top_mm: mm.describe('what is added at its upper end'),
          bottom_mm: mm,
          notches: z.array(z.strictObject({ from_mm: mm, to_mm: mm })).describe('those that move along the edge'),
        }),
      ),
      bends: z.array(
        z.strictObject({ edge: z.enum(['top', 'bottom']), before_degrees: degrees, after_degrees: degrees }),
      ),
    }),
  ),
  ...shape,
});

export const splitSides = report('What staywright split-sides made of each panel', {
  panels: z.array(z.strictObject({ pair: panel, left: panel, right: panel })),
  levels: z.array(z.strictObject({ level, before_mm: mm, after_mm: mm })),
});
