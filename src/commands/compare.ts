import { defineCommand } from '../cli/command.ts';
import { comparePatterns } from '../measure/compare-patterns.ts';
import { compareReport } from './compare-report.ts';
import { readVersions } from './compare-versions.ts';

export const compare = defineCommand({
  name: 'compare',
  summary: 'two versions: what moved where and by how much',
  kind: 'overlay',
  takesOther: true,
  examples: [
    { says: 'what did I change since version 1?', line: 'staywright compare v1.svg v2.svg' },
    {
      says: 'and drawn over each other; .svg and .pdf too',
      line: 'staywright compare v1.svg v2.svg -o overlay.png',
    },
    { says: 'two sizes, laid on each other by their waists', line: 'staywright compare net-2.svg net-3.svg' },
    {
      says: 'what would this change?',
      line: 'staywright take-in v2.svg --seam cb --above waist --amount 1/4in |\n  staywright compare v2.svg',
    },
  ],
  notes: [
    'OTHER is the version before, FILE the one after. Versions that come from one labelled sheet lie on each other in their own coordinates, as nothing moves a panel in them; others, such as two sizes, waist line on waist line, middle of the waist on middle of the waist.',
    'A seam moves outwards (+, larger) or inwards (-) along each level, as the level lies in each version; a top or bottom edge up (+) or down (-). A line counts as the same within 0.01 mm, an angle within 0.1 degrees.',
    'Exit code 0: the same; 1: they differ; 2: they are no versions of one pattern, or could not be read.',
  ],
  declare: (commander) => commander,
  run: async (_options, job) => {
    const versions = await readVersions(job);
    const { before, after, names, sharesFrame, findings } = versions;
    const found = comparePatterns(before.sheet.pattern, after.sheet.pattern, { sharesFrame, names });
    return {
      report: compareReport(found, versions),
      scene: async () => (await import('./compare-overlay.ts')).compareOverlay(found, versions),
      findings,
      found: found.differs,
    };
  },
});
