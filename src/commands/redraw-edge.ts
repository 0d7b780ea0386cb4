import type { RedrawEdge } from '../alterations/redraw-edge-options.ts';
import { redrawEdge as redraw } from '../alterations/redraw-edge.ts';
import { collect } from '../cli/collect.ts';
import { defineCommand } from '../cli/command.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseNamedSettings } from '../cli/parse-settings.ts';
import { StaywrightError } from '../errors.ts';
import { alterSheet } from './alter-sheet.ts';
import { redrawReport } from './redraw-report.ts';

export const redrawEdge = defineCommand({
  name: 'redraw-edge',
  summary: 'the top or bottom line up or down, smooth across panels',
  kind: 'sheet',
  drawsOverlay: true,
  examples: [
    {
      says: 'the top half an inch lower at centre back, nothing at the side and before it',
      line: 'staywright redraw-edge net.svg --edge top \\\n  --at side=0mm --at cb=-0.5in -o v2.svg',
    },
    {
      says: 'the top raised under the arm, back to nothing at both centres',
      line: 'staywright redraw-edge net.svg --edge top --at side=10mm -o v2.svg',
    },
    {
      says: 'a bottom drawn down to a point in front, then how its seams meet',
      line: 'staywright redraw-edge net.svg --edge bottom --at cf=-1in --at side=0mm |\n  staywright describe',
    },
  ],
  notes: [
    'A positive amount is up and a negative one down, for a top and for a bottom: raising a bottom makes the seams shorter. Each is measured along the seam, and both edges of a seam change alike.',
    'Between the named seams the amounts are blended over the widths of the panels, none beyond those asked for; across every seam the line keeps its angle, so that no peak or dip comes. Where centre front or centre back is not named nothing moves there: --at side=0mm keeps all that lies before the side as well.',
  ],
  declare: (commander) =>
    commander
      .option('--edge <top|bottom>', 'which line to redraw')
      .option('--at <seam=length>', 'up by so much at a seam, -6mm down; repeatable', collect),
  run: async (options, job) => {
    const what = whatOf(options);
    return alterSheet(
      job,
      options,
      (pattern, redrawCutting) => redraw(pattern, what, redrawCutting),
      (change, _, units) => redrawReport(change, units),
    );
  },
});

const whatOf = ({
  edge,
  at,
}: {
  readonly edge?: string | undefined;
  readonly at?: string[] | undefined;
}): RedrawEdge => {
  if (edge !== 'top' && edge !== 'bottom') {
    const message = edge === undefined ? 'which edge?' : `'${edge}' is not an edge to redraw`;
    throw new StaywrightError('usage', message, { where: '--edge', hint: 'write --edge top or --edge bottom' });
  }
  if (at === undefined) {
    throw new StaywrightError('usage', 'how much, and at which seam?', {
      where: '--at',
      hint: 'write --at cb=-12mm to lower it at cb',
    });
  }
  const amounts = parseNamedSettings(at, '--at', 'cb=-12mm').map(({ name, value }) => ({
    seam: name,
    amount: parseLength(value, '--at'),
  }));
  return { edge, at: amounts };
};
