import { defineCommand } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import { wholeSheet } from '../cli/one-side.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { levelNames } from '../pattern/look-up.ts';
import { hashGeometry } from '../record/hash-geometry.ts';

export const picture = defineCommand({
  name: 'picture',
  summary: 'panels side by side at the waist line, with their measures',
  kind: 'picture',
  examples: [
    { says: 'for the wall of the workroom', line: 'staywright picture net.svg -o net.png' },
    {
      says: 'what an alteration would make of it',
      line: 'staywright take-in net.svg --seam cb --amount 6mm |\n  staywright picture -o taken-in.pdf',
    },
  ],
  notes: [
    'Each panel with its width at every level, round the body beside it, each seam with its name and length. It is drawn at a scale of whole numbers, on at most an A3 sheet where that is large enough; to cut by, print the pattern itself: staywright help print.',
  ],
  declare: (commander) => commander,
  run: async (_options, job) => {
    const { sheet, units, findings } = await readSheet(job);
    const { pattern } = sheet;
    const hash = hashGeometry(wholeSheet(sheet).pattern);
    return {
      scene: async () => {
        const { panelsScene } = await import('../picture/panels-scene.ts');
        return panelsScene(pattern, { title: pattern.name, hash, units });
      },
      report: {
        text: () => '',
        last: () =>
          `${pattern.name}: ${countOf(pattern.panels.length, 'panel')}, levels ${levelNames(pattern).join(', ') || 'none'}`,
        json: () => ({ name: pattern.name, panels: pattern.panels.length, levels: levelNames(pattern), hash }),
      },
      findings,
    };
  },
});
