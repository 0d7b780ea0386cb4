import { describe, expect, it } from 'vitest';
import { signedArea } from '../../src/geometry/area.ts';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { boxPattern } from '../support/box-pattern.ts';

describe('add-allowance', () => {
  it('draws a rectangle round a rectangle', () => {
    const { pattern } = addAllowance(boxPattern(1), { all: 15, byEdge: { top: 6 } }, { default: 'mitre' });
    const [panel] = pattern.panels;
    expect(signedArea(panel!.cutting!)).toBeCloseTo((80 + 30) * (360 + 21), 6);
    expect(panel!.line).toBe('stitching');
    expect(panel!.edges.map((edge) => edge.allowance)).toEqual([6, 15, 15, 15]);
  });
});
