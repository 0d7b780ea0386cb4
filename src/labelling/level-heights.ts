import { StaywrightError } from '../errors.ts';
import { suggestName } from '../pattern/suggest.ts';
import type { LabelAnswers, LevelAnswer } from './label-answers.ts';

/** What is known of one panel's heights, all y downwards as the panel hangs. */
export interface KnownHeights {
  readonly panel: string;
  readonly top: number;
  readonly bottom: number;
  /** Levels drawn across the panel. */
  readonly drawn: ReadonlyMap<string, number>;
}

/**
 * The height of every level of one panel. An answer wins over a drawn line; offsets are followed from level to level, upwards
 * positive. A level whose base this panel does not have is left out. Throws `usage` for an offset that comes back to itself.
 */
export const levelHeights = (known: KnownHeights, answers: readonly LevelAnswer[]): Map<string, number> => {
  const heightOf = (name: string, asked: readonly string[]): number | undefined => {
    if (name === 'top') return known.top;
    if (name === 'bottom') return known.bottom;
    if (asked.includes(name)) {
      throw new StaywrightError('usage', `level ${[...asked, name].join(' is measured from ')}`, {
        where: '--level',
        hint: 'measure one of them from the waist',
      });
    }
    const answer = answers.find((one) => one.name === name);
    if (answer === undefined) return known.drawn.get(name);
    if ('from' in answer) {
      const base = heightOf(answer.from.name, [...asked, name]);
      return base === undefined ? undefined : base - answer.from.offset;
    }
    const down = answer.down[known.panel];
    return down === undefined ? known.drawn.get(name) : known.top + down;
  };
  const names = new Set([...known.drawn.keys(), ...answers.map((answer) => answer.name)]);
  const heights = [...names].flatMap((name): [string, number][] => {
    const height = heightOf(name, []);
    return height === undefined ? [] : [[name, height]];
  });
  return new Map(heights);
};

/** Refuses an offset from a level that is neither answered nor drawn anywhere, and a drawn level of which there is no line. */
export const checkLevelBases = (answers: LabelAnswers, drawn: readonly string[]): void => {
  const names = [...new Set([...drawn, ...answers.levels.map((level) => level.name), 'top', 'bottom'])];
  for (const answer of answers.levels) {
    if ('down' in answer && Object.keys(answer.down).length === 0 && !drawn.includes(answer.name)) {
      throw new StaywrightError('usage', `no straight line across a panel is called '${answer.name}'`, {
        where: `--level ${answer.name}`,
        hint: `draw one with the id ${answer.name}, or say how far from the waist it lies: --level ${answer.name}=waist+3in`,
      });
    }
    if (!('from' in answer) || names.includes(answer.from.name)) continue;
    throw new StaywrightError('usage', `no level is called '${answer.from.name}'`, {
      where: `--level ${answer.name}=${answer.from.text}`,
      hint: suggestName(answer.from.name, names),
    });
  }
};
