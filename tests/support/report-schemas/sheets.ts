import { z } from 'zod';
import { count, degrees, edge, hash, level, mm, panel, report, seam, side } from './fields.ts';

const scale = z.strictObject({
  from: z.enum(['test-square', 'dpi', 'file']).describe('what the scale was taken from'),
  dpi_x: z.number(),
  dpi_y: z.number(),
  turn_degrees: degrees,
  shear_degrees: degrees,
  misfit_mm: mm.optional().describe('how far the square keeps from its true shape'),
  doubt_mm_in_100: mm.optional().describe('how much 100 mm may be off'),
});

const scan = {
  scans: z.array(z.string()).describe('files, more than one where they were joined'),
  kind: z.enum(['line', 'cutout']),
  scale,
};

const tracedPanels = z.array(
  z.strictObject({
    panel,
    width_mm: mm,
    height_mm: mm,
    corners: count,
    notches: count,
    levels: z.array(level).describe('the lines right across, from the top'),
    grain: z.boolean().describe('whether a grainline was found'),
    spread_mm: mm.describe('how far, on average, the outline keeps from what it follows'),
    bridged_mm: mm.describe('length of its gaps, where nothing was there to follow'),
  }),
);

export const trace = report('What staywright trace found in scans', {
  scans: z.array(
    z.strictObject({
      ...scan,
      join_misfit_mm: mm.optional().describe('how far apart, on average, what joined scans both show lies'),
      join_worst_mm: mm.optional(),
    }),
  ),
  panels: tracedPanels,
});

export const label = report('What staywright label made of a drawing', {
  name: z.string(),
  pieces: z.enum(['pairs', 'single']),
  line: z.enum(['cutting', 'stitching']),
  panels: z.array(z.strictObject({ panel, front_seam: seam, back_seam: seam, notches: count, levels: z.array(level) })),
});

export const check = report('What staywright check found wrong with a sheet', {
  name: z.string(),
  panels: count,
  sound: z.boolean().describe('whether there is neither an error nor a warning'),
});

const widths = {
  edges: z.array(z.strictObject({ edge, width_mm: mm })),
  panels: z.array(z.strictObject({ panel, area_before_mm2: z.number(), area_after_mm2: z.number() })),
};

export const addAllowance = report('What staywright add-allowance added', widths);

export const stripAllowance = report('What staywright strip-allowance took off', {
  traced: z
    .strictObject({ scans: z.array(z.strictObject(scan)), panels: tracedPanels })
    .optional()
    .describe('of a scan: what trace says of it'),
  ...widths,
});

export const print = report('What staywright print laid out', {
  name: z.string(),
  panels: count,
  pages: count,
  paper: z.string(),
});

const panels = report('What staywright picture drew of panels', {
  name: z.string(),
  panels: count,
  levels: z.array(
    z.strictObject({
      level,
      girth_mm: mm
        .optional()
        .describe('round the body, where every panel has a width there and none carries allowance'),
      panels: z.array(z.strictObject({ panel, width_mm: mm })),
    }),
  ),
  seams: z.array(
    z.strictObject({
      seam,
      side: side.optional(),
      edges: z.array(z.strictObject({ panel, length_mm: mm })),
    }),
  ),
  hash,
});

const girthPlot = report('What staywright picture --girth-plot drew', {
  name: z.string(),
  levels: z.array(
    z.strictObject({
      level,
      body_mm: mm,
      wanted_girth_mm: mm.describe('body - reduction - gap wanted'),
      pattern_girth_mm: mm,
      predicted_gap_mm: mm.describe('body - reduction - pattern'),
    }),
  ),
  hash,
});

export const picture = z.union([panels, girthPlot]).describe('What staywright picture drew');
