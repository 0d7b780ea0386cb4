import { trueSeams as trueSeamsOf } from '../alterations/true-seams.ts';
import type { TrustedEdge } from '../alterations/true-seams-options.ts';
import { collect } from '../cli/collect.ts';
import { defineCommand } from '../cli/command.ts';
import { parseNames } from '../cli/parse-names.ts';
import { StaywrightError } from '../errors.ts';
import { alterSheet } from './alter-sheet.ts';
import { trueReport } from './true-report.ts';

export const trueSeams = defineCommand({
  name: 'true',
  summary: 'makes the edges of each seam equal, smooth across, notches met',
  kind: 'sheet',
  drawsOverlay: true,
  examples: [
    { says: 'every seam; each of its edges takes half', line: 'staywright true net.svg -o v2.svg' },
    {
      says: 'the side seam only; the edge on the front is right, the other follows',
      line: 'staywright true net.svg --seam side --keep side:side-front -o v2.svg',
    },
    {
      says: 'after an alteration, with the proof',
      line: 'staywright let-out net.svg --seam side --amount 6mm --below waist |\n  staywright true | staywright walk',
    },
  ],
  notes: [
    'Seams are matched at the waist (or at their end nearest to it). What one edge is longer above it comes off at its top and is added at the top of the other, half and half; below, at the bottom. The corners slide along the seams, so no width changes.',
    'Top and bottom edges are then turned about their corners until they cross each seam smoothly, each in one gentle line from corner to corner; the report says how far it moves. Notches that pair are moved together. Left alone: lengths and notches within 0.05 mm, angles within 2 degrees, and angles more than 30 degrees off, taken for points drawn on purpose.',
    'Edges more than an inch apart are refused. What is true already keeps its characters; a second run changes nothing.',
  ],
  declare: (commander) =>
    commander
      .option('--seam <names>', 'seams to true: side or side,princess; repeatable (all)', collect)
      .option('--keep <seam:panel>', "that panel's edge of the seam stays; repeatable", collect),
  run: async (options, job) =>
    alterSheet(
      job,
      options,
      (pattern, redraw) =>
        trueSeamsOf(
          pattern,
          { seams: parseNames(options.seam ?? [], '--seam'), keep: (options.keep ?? []).flatMap(trustedOf) },
          redraw,
        ),
      (change, before, units) => trueReport(change, before, parseNames(options.seam ?? [], '--seam'), units),
    ),
});

const trustedOf = (text: string): TrustedEdge[] =>
  parseNames([text], '--keep').map((typed) => {
    const [seam = '', panel = '', ...more] = typed.split(':').map((name) => name.trim());
    if (seam !== '' && panel !== '' && more.length === 0) return { seam, panel };
    throw new StaywrightError('usage', `'${typed}' is not a seam and a panel`, {
      where: '--keep',
      hint: 'write it as SEAM:PANEL, like side:side-front',
    });
  });
