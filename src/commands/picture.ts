import { defineCommand } from '../cli/command.ts';
import { usage } from '../errors.ts';
import { BODY, GAP, REDUCTION } from './gap-options.ts';
import type { GapOptions } from './wanted-gaps.ts';

export const picture = defineCommand({
  name: 'picture',
  summary: 'panels side by side at the waist line, or girths on a body',
  kind: 'picture',
  examples: [
    { says: 'for the wall of the workroom', line: 'staywright picture net.svg -o net.png' },
    {
      says: 'body, wanted and pattern by level, and the laced back from behind',
      line: 'staywright picture --girth-plot net.svg --body body.json -o plot.pdf',
    },
    {
      says: 'what an alteration would make of it',
      line: 'staywright take-in net.svg --seam cb --amount 6mm |\n  staywright picture --girth-plot --body body.json -o taken-in.png',
    },
  ],
  notes: [
    'Each panel with its width at every level, round the body beside it, each seam with its name and length. It is drawn at a scale of whole numbers, on at most an A3 sheet where that is large enough; to cut by, print the pattern itself: staywright help print.',
    'With --girth-plot the girths of body and pattern, what is wanted of the pattern, and the gap at every level, in the terms of staywright help gap. The opening of the laced back is drawn at the same scale across as down.',
  ],
  declare: (commander) =>
    commander
      .option('--girth-plot', 'draw girths by level and the laced back, on a body')
      .option(...BODY)
      .option(...REDUCTION)
      .option(...GAP),
  run: async ({ girthPlot: asked, ...body }, job) => {
    if (asked === true) {
      const { girthPlot } = await import('./picture-girth-plot.ts');
      return girthPlot(body, job);
    }
    refuseBody(body);
    const { panelsPicture } = await import('./picture-panels.ts');
    return panelsPicture(job);
  },
});

/** Panels are drawn on no body. */
const refuseBody = ({ body, reduction, gap }: GapOptions): void => {
  const option = [body && '--body', reduction && '--reduction', gap && '--gap'].find(Boolean);
  if (option !== undefined) throw usage('is for the girth plot alone', option, 'add --girth-plot');
};
