import { defineCommand } from '../cli/command.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { describePattern, type Fact } from '../measure/describe-pattern.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';

export const describe = defineCommand({
  name: 'describe',
  summary: 'lengths, girths and angles as stable lines, for git diff',
  kind: 'look',
  examples: [
    { says: 'all that can be said of a sheet', line: 'staywright describe net.svg' },
    {
      says: 'let git diff show sheets in these words',
      line: 'git config diff.staywright.textconv "staywright describe"',
    },
    {
      says: 'every length that one command changed',
      line: 'staywright let-out net.svg --seam side --amount 6mm | staywright describe',
    },
  ],
  notes: [
    'One fact a line, always in the same order: panels from centre front to centre back with their edges, corners, levels and notches, then seams, then girths. For git, also put the line "*.svg diff=staywright" into .gitattributes.',
  ],
  declare: (commander) => commander,
  run: async (_options, job) => {
    const { sheet, units, findings } = await readSheet(job);
    const facts = describePattern(sheet.pattern);
    return {
      sheet,
      report: {
        text: () => facts.map((fact) => `${fact.of}: ${fact.what} ${shown(fact.value, units)}\n`).join(''),
        json: () => ({ facts: facts.map(jsonOf) }),
      },
      findings,
    };
  },
});

const shown = (value: Fact['value'], units: Units): string => {
  if ('mm' in value) return formatLength(value.mm, units);
  if ('degrees' in value) return `${(Math.round(value.degrees * 100) / 100 || 0).toFixed(2)} degrees`;
  return 'count' in value ? String(value.count) : value.word;
};

const jsonOf = ({ of, what, value }: Fact): Record<string, unknown> => {
  if ('mm' in value) return { of, what, length_mm: value.mm };
  if ('degrees' in value) return { of, what, angle_degrees: value.degrees };
  return 'count' in value ? { of, what, count: value.count } : { of, what, word: value.word };
};
