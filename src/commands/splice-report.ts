import type { LevelSource, SeamStep, SpliceChange } from '../alterations/splice/splice-figures.ts';
import type { SpliceWhere } from '../alterations/splice/splice-plan.ts';
import type { Report } from '../cli/command.ts';
import { figure } from '../cli/figure.ts';
import { tableText } from '../cli/table-text.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { shapeJson } from './shape-report.ts';

/** What a splice did, in a maker's words: the girths of both and of the result, how far seams move at the join, what came from where last. */
export const spliceReport = (change: SpliceChange, other: string, units: Units): Report => ({
  text: () =>
    `${tableOf(change, units)}\n${[...stepLines(change.steps, units), ...lengthenedLines(change, units), ...hints(change.where)].join('\n')}\n`,
  last: () => lastLine(change, other, units),
  json: () => jsonOf(change, other),
});

const FROM: Readonly<Record<LevelSource['source'], string>> = { this: 'this', other: 'other', mix: 'blend' };

const tableOf = ({ girth, levels }: SpliceChange, units: Units): string =>
  tableText(
    [
      `in ${units === 'in' ? 'inches' : 'mm'}`,
      'from',
      girth[0]?.side === undefined ? 'girth of this' : `${girth[0].side} half of this`,
      'of other',
      'now',
    ],
    girth.map(({ level, before, after }, at) => {
      const { source, other } = levels[at]!;
      return [
        level,
        FROM[source],
        figure(before, units),
        other === undefined ? '-' : figure(other, units),
        figure(after, units),
      ];
    }),
  );

/** `front: princess 4.23 mm outwards at the join`, a line for each panel whose seams move to be seen. */
const stepLines = (steps: readonly SeamStep[], units: Units): string[] => {
  const lines = [...new Set(steps.map(({ panel }) => panel))].flatMap((name) => {
    const moves = steps
      .filter(({ panel }) => panel === name)
      .map(({ seam, outwards }) => ({ seam, outwards, size: formatLength(Math.abs(outwards), units) }))
      .filter(({ size }) => /[1-9]/.test(size))
      .map(({ seam, outwards, size }) => `${seam} ${size} ${outwards > 0 ? 'outwards' : 'inwards'}`);
    return moves.length === 0 ? [] : [`${name}: ${moves.join(', ')} over the blend`];
  });
  return lines.length === 0 ? ['No seam moves over the blend.'] : lines;
};

/** Why the blend is not the usual one, which a maker may have counted on. */
const lengthenedLines = ({ blend, lengthenedFrom, steps, where, levels }: SpliceChange, units: Units): string[] => {
  if (lengthenedFrom === undefined || where.kind === 'levels') return [];
  const most = Math.max(...steps.map(({ outwards }) => Math.abs(outwards)));
  const inside = levels.filter(({ source }) => source === 'mix').map(({ level }) => level);
  const reaches = inside.length === 0 ? '' : `; ${inside.join(', ')} ${inside.length === 1 ? 'lies' : 'lie'} in it`;
  const why = `${formatLength(blend!, units)} instead of ${formatLength(lengthenedFrom, units)}, as a line moves ${formatLength(most, units)}`;
  return [`The blend is ${why}${reaches}.`];
};

/** One source holds from top to bottom, which who types it may not mean. */
const hints = (where: SpliceWhere): string[] => {
  if (where.kind !== 'levels' || where.at.some(({ source }) => source === 'this')) return [];
  return ['All comes from the other; add --size LEVEL=this where this one is to stay.'];
};

const lastLine = ({ where, blend, edges }: SpliceChange, other: string, units: Units): string => {
  if (edges.length === 0) return `Nothing changed: ${other} is the same there.`;
  if (where.kind !== 'levels') {
    const part = where.kind === 'above' ? 'Above' : 'Below';
    return `${part} ${where.level.text} from ${other}, blended over ${formatLength(blend!, units)}.`;
  }
  const levelsOf = (wanted: string): string =>
    where.at
      .filter(({ source }) => source === wanted)
      .map(({ level }) => level.text)
      .join(', ');
  const mine = levelsOf('this');
  return `${levelsOf('other')} from ${other}${mine === '' ? '' : `, ${mine} from this, blended in between`}.`;
};

const whereJson = (where: SpliceWhere): Record<string, unknown> =>
  where.kind === 'levels'
    ? { sizes: where.at.map(({ level, source }) => ({ level: level.text, from: source })) }
    : { [where.kind]: where.level.text };

const jsonOf = (change: SpliceChange, other: string): Record<string, unknown> => {
  const { levels, ...shape } = shapeJson(change);
  return {
    other,
    ...whereJson(change.where),
    ...(change.blend === undefined ? {} : { blend_mm: change.blend }),
    levels: (levels as Record<string, unknown>[]).map((row, at) => ({
      ...row,
      from: FROM[change.levels[at]!.source],
      other_mm: change.levels[at]!.other ?? null,
    })),
    ...shape,
    steps: change.steps.map(({ panel, seam, outwards }) => ({ panel, seam, outwards_mm: outwards })),
  };
};
