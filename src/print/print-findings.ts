import type { Finding } from '../pattern/finding.ts';
import type { Pattern } from '../pattern/pattern.ts';
import type { PrintOptions } from './print-options.ts';
import { setText } from '../ink/set-text.ts';

/** Printers leave 4 to 7 mm of the paper's edge bare, each its own: see the sources of `shared/paper-sizes.json`. */
const SAFE_MARGIN = 6;

/** What a maker should know before printing: a margin that printers cut into, panels without a grainline, characters that no font can show. */
export const printFindings = (
  pattern: Pattern,
  options: Pick<PrintOptions, 'margin' | 'title' | 'changes'>,
): Finding[] => {
  const findings: Finding[] = [];
  if (options.margin < SAFE_MARGIN) {
    findings.push({
      weight: 'warning',
      kind: 'narrow-margin',
      where: '--margin',
      message: `many printers cannot print within 4 to 7 mm of the edge; ${options.margin} mm may be cut off`,
      cure: 'use 10mm unless you know your printer',
    });
  }
  const bare = pattern.panels.filter(({ grain }) => !grain).map(({ name }) => name);
  if (bare.length > 0) {
    findings.push({
      weight: 'note',
      kind: 'no-grainline',
      where: bare.length === 1 ? `panel ${bare[0]}` : `panels ${bare.join(', ')}`,
      message: 'no grainline: the grain is taken to be upright, and no arrow is printed',
      cure: 'draw a line named grain in the drawing, and label it again',
    });
  }
  for (const [where, texts] of textsOf(pattern, options)) {
    const missing = [...new Set(texts.flatMap((text) => setText(text).missing))];
    if (missing.length === 0) continue;
    findings.push({
      weight: 'warning',
      kind: 'no-letter',
      where,
      message: `prints as an empty box: ${missing.map(codePoint).join(', ')}`,
      cure: 'use other letters in the name',
    });
  }
  return findings;
};

const textsOf = (
  pattern: Pattern,
  { title, changes }: Pick<PrintOptions, 'title' | 'changes'>,
): [string, string[]][] => [
  ['title', [title, pattern.name]],
  ['changes', [...changes]],
  ...pattern.panels.map((panel): [string, string[]] => [
    `panel ${panel.name}`,
    [panel.name, ...panel.edges.map(({ name }) => name), ...panel.levels.map(({ name }) => name)],
  ]),
];

const codePoint = (character: string): string =>
  `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;
