import { degreesOf } from '../geometry/degrees.ts';
import type { LetBack } from '../alterations/slash/let-back.ts';
import type { SlashChange } from '../alterations/slash.ts';
import type { Report } from '../cli/command.ts';
import { shellWord } from '../record/shell-word.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { typableLength } from './typable-length.ts';
import { edgesLines, girthTable, shapeJson } from './shape-report.ts';

/** What slashing did: girths, edges, the turn of each part, what brings the waist back, and each opening and their sum last. */
export const slashReport = (change: SlashChange, units: Units): Report => ({
  text: () =>
    `${girthTable(change.girth, units)}\n${[
      ...edgesLines(change.edges, units),
      ...turnsLines(change),
      ...(change.letBack ? backLines(change.letBack, units) : []),
    ].join('\n')}\n`,
  last: () => lastLine(change, units),
  json: () => jsonOf(change, units),
});

/** `the front part`, `the middle part` (of more `part 2`, `part 3`), `the back part`; from a seam `the top part` ... */
const partNames = ({ turns, way }: SlashChange): string[] => {
  const [first, last] = way === 'down' ? ['front', 'back'] : ['top', 'bottom'];
  const inner = (i: number): string => (turns.length === 3 ? 'the middle part' : `part ${i + 1}`);
  return turns.map((_, i) => (i === 0 ? `the ${first} part` : i === turns.length - 1 ? `the ${last} part` : inner(i)));
};

const turnWords = (turn: number): string => {
  const size = Math.abs(degreesOf(turn)).toFixed(2);
  if (!/[1-9]/.test(size)) return 'keeps the grain';
  return `leans ${size} degrees, its top to the ${turn > 0 ? 'back' : 'front'}`;
};

const turnsLines = (change: SlashChange): string[] => {
  if (change.hinge === undefined) return [`${change.panel}: every part keeps the grain`];
  const names = partNames(change);
  return change.turns.map((turn, i) => `${change.panel}: ${names[i]!} ${turnWords(turn)}`);
};

/** The command as a maker types it, to read its sheet from a pipe or with a file added. */
const backCommand = ({ command, seam, side, at }: LetBack, units: Units): string =>
  [
    `staywright ${command} --seam ${shellWord(seam)}`,
    ...at.map(({ level, amount }) => `--at ${shellWord(`${level}=${typableLength(amount, units)}`)}`),
    ...(side === undefined ? [] : [`--side ${side}`]),
  ].join(' ');

const backLines = (back: LetBack, units: Units): string[] => {
  const now = back.command === 'take-in' ? 'wider' : 'narrower';
  return [`The waist came out ${now} too; to keep it as it was:`, `  ${backCommand(back, units)}`];
};

const lastLine = ({ panel, from, hinge, lines, spread }: SlashChange, units: Units): string => {
  const size = formatLength(Math.abs(spread), units);
  const done = `${lines === 1 ? '' : 'each '}${spread > 0 ? 'opened' : 'overlapped'} ${size}`;
  const where = hinge === undefined ? `right through from ${from}` : `on ${from}, nothing at ${hinge}`;
  const all = lines === 1 ? '' : `; ${formatLength(Math.abs(spread) * lines, units)} in all`;
  return `Panel ${panel}: ${lines === 1 ? '1 slash' : `${lines} slashes`}, ${done} ${where}${all}.`;
};

const jsonOf = (change: SlashChange, units: Units): Record<string, unknown> => ({
  panel: change.panel,
  from: change.from,
  hinge: change.hinge ?? null,
  lines: change.lines,
  spread_mm: change.spread,
  spread_in_all_mm: change.spread * change.lines,
  parts: change.turns.map((turn, i) => ({ part: i + 1, leans_to_back_degrees: degreesOf(turn) })),
  ...(change.letBack ? { to_keep_the_waist: backCommand(change.letBack, units) } : {}),
  ...shapeJson(change),
});
