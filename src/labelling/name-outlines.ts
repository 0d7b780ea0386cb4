import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import type { LabelAnswers } from './label-answers.ts';
import type { DrawnPanel } from './sort-outlines.ts';
import { describeShape, middleOf } from './shape.ts';

export interface NamedPanel extends DrawnPanel {
  readonly name: string;
}

/**
 * Gives every outline a name and puts the panels in the order of the names: outlines whose id is a name first, the others from left
 * to right (from right to left with centre front at the right). Counts that differ throw an error that lists both, with what reading
 * the drawing warned of where outlines are missing.
 */
export const nameOutlines = (
  panels: readonly DrawnPanel[],
  answers: LabelAnswers,
  warnings: readonly string[],
): { named: readonly NamedPanel[]; findings: readonly Finding[] } => {
  const idOf = ({ shape, other }: DrawnPanel): string | undefined =>
    [shape.outline.id, other?.outline.id].find((id) => id !== undefined && answers.panels.includes(id));
  const lying = panels.toSorted((a, b) => middleOf(a.shape).x - middleOf(b.shape).x);
  if (answers.centreFront === 'right') lying.reverse();
  if (panels.length !== answers.panels.length) refuseCount(lying, answers.panels, warnings);
  const byId = new Map<string, DrawnPanel>();
  for (const panel of lying) {
    const id = idOf(panel);
    if (id === undefined) continue;
    const first = byId.get(id);
    if (first !== undefined) {
      const message = `two outlines have the id '${id}': here and at ${first.shape.outline.where}`;
      throw new StaywrightError('input', message, { where: panel.shape.outline.where });
    }
    byId.set(id, panel);
  }
  const rest = lying.filter((panel) => idOf(panel) === undefined);
  const findings = doubts(rest, byId.size > 0, answers);
  const left = rest.values();
  const named = answers.panels.map((name) => ({ name, ...(byId.get(name) ?? left.next().value!) }));
  return { named, findings };
};

/** What reading warned of may be why an outline is missing: a line that is not closed, a wrong scale. */
const refuseCount = (lying: readonly DrawnPanel[], names: readonly string[], warnings: readonly string[]): never => {
  const drawn = lying.map(({ shape }) => describeShape(shape)).join('; ');
  const message = `${count(lying.length, 'outline')} but ${count(names.length, 'panel name')} (${names.join(', ')}): ${drawn || 'nothing closed is drawn'}`;
  throw new StaywrightError('input', message, {
    where: '--panels',
    hint:
      lying.length < names.length && warnings.length > 0
        ? warnings.slice(0, 2).join('; ')
        : 'give one name for each outline, from centre front to centre back, or take out what is no panel',
  });
};

const count = (number: number, noun: string): string => `${number} ${noun}${number === 1 ? '' : 's'}`;

/** Says so where left to right was a guess: panels lying one above another. */
const doubts = (rest: readonly DrawnPanel[], someById: boolean, answers: LabelAnswers): Finding[] => {
  const stacked = rest.find((panel, at) => {
    const next = rest[at + 1];
    if (next === undefined) return false;
    const [a, b] = [panel.shape.box, next.shape.box];
    return a.maxY < b.minY || b.maxY < a.minY;
  });
  if (stacked === undefined) return [];
  const names = someById ? 'the names left over went' : 'the names went';
  return [
    {
      weight: 'warning',
      kind: 'order-doubtful',
      where: stacked.shape.outline.where,
      message: `panels lie above one another; ${names} by their middles from ${answers.centreFront === 'left' ? 'left to right' : 'right to left'}`,
      cure: 'if a panel has the wrong name, give each outline its name as id in the drawing program',
    },
  ];
};
