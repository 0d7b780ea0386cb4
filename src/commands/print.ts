import { defineCommand } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { pageFindings, pagesOf } from '../cli/pages.ts';
import { readSheet } from '../cli/read-sheet.ts';
import type { Panel } from '../pattern/panel.ts';

export const print = defineCommand({
  name: 'print',
  summary: 'pages at true scale, as PDF',
  kind: 'pdf',
  examples: [
    { says: 'on A4, to tape together', line: 'staywright print cut.svg -o print.pdf' },
    { says: 'on a roll 36 inches wide', line: 'staywright print cut.svg --paper roll:36in -o roll.pdf' },
    {
      says: 'allowance, then pages, without a sheet between',
      line: 'staywright add-allowance net.svg --allowance 15mm | staywright print > a.pdf',
    },
  ],
  notes: [
    'Paper: a4, letter, legal, a3, tabloid, a2, a1, a0, roll:WIDTH or WIDTHxHEIGHT. Print at 100 %, "actual size", and measure the test square on the first page before you cut.',
  ],
  declare: (commander) => commander,
  run: async (_options, job) => {
    const { sheet, findings } = await readSheet(job);
    const { name, panels } = sheet.pattern;
    const paper = job.shared.paper ?? 'a4';
    const pdf = await pagesOf(sheet, job.shared);
    const pages = pagesIn(pdf);
    const all = `${countOf(panels.length, 'panel')} on ${countOf(pages, 'page')} of ${paper}`;
    return {
      pdf,
      report: {
        text: () => withoutAllowance(panels),
        last: () => `${name}: ${all}; measure the test square on the first page before you cut`,
        json: () => ({ name, panels: panels.length, pages, paper }),
      },
      findings: [...findings, ...pageFindings(sheet, job.shared)],
    };
  },
});

/** A line for whoever is about to cut a pattern that has no cutting line. */
const withoutAllowance = (panels: readonly Panel[]): string => {
  const bare = panels.filter(({ line, cutting }) => line === 'stitching' && cutting === undefined);
  if (bare.length === 0) return '';
  const on = bare.length === panels.length ? '' : ` on ${bare.map(({ name }) => name).join(', ')}`;
  return `stitching lines only${on}: no allowance was added\n`;
};

/** Pages stand in the file as plain objects. */
const pagesIn = (pdf: Uint8Array): number =>
  Buffer.from(pdf)
    .toString('latin1')
    .match(/\/Type \/Page\b/g)?.length ?? 0;
