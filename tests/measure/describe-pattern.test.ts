import { describe, expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { describePattern } from '../../src/measure/describe-pattern.ts';
import { boxPattern } from '../support/box-pattern.ts';

/** Panels of 80 x 360 mm, the waist in the middle. */
const pattern = boxPattern(2);

const linesOf = (...words: Parameters<typeof describePattern>): string[] =>
  describePattern(...words).map(({ of, what, value }) => `${of}: ${what} ${Object.values(value).join('')}`);

describe('a pattern in words', () => {
  it('is one fact a line, from its panels to its girths', () => {
    const lines = linesOf(pattern);
    expect(lines.slice(0, 3)).toEqual(['pattern: name Boxes', 'pattern: pieces pairs', 'pattern: panels 2']);
    expect(lines).toContain('panel panel-1, edge cf: length 360');
    expect(lines).toContain('panel panel-2, corner top to cb: angle 90');
    expect(lines).toContain('seam seam-1: difference of its edges 0');
    expect(lines.at(-1)).toMatch(/^level hip: girth 320$/);
    expect(new Set(lines).size).toBe(lines.length);
  });

  it('says how high every level lies but the waist, from which heights are told', () => {
    const heights = linesOf(pattern).filter((line) => line.startsWith('panel panel-1, level'));
    expect(heights).toContain('panel panel-1, level waist: width 80');
    expect(heights.filter((line) => line.includes('the waist'))).toHaveLength(2);
  });

  it('says of one panel of many nothing that takes all of them', () => {
    const lines = linesOf({ ...pattern, panels: pattern.panels.slice(1) }, { number: 2, of: 2 });
    expect(lines[2]).toBe('pattern: panel 2 of 2');
    expect(lines.filter((line) => /^(?:seam|level) /.test(line))).toEqual([]);
    expect(lines).toContain('panel panel-2, edge cb: length 360');
  });

  it('says how allowance is cut at the ends of an edge, where that was chosen', () => {
    const { pattern: added } = addAllowance(pattern, { all: 15, byEdge: {} }, { default: 'mitre', bottom: 'folded' });
    expect(linesOf(added).filter((line) => line.includes('corners'))).toEqual([
      'panel panel-1, edge bottom: corners folded',
      'panel panel-2, edge bottom: corners folded',
    ]);
  });
});
