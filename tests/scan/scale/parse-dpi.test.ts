import { describe, expect, it } from 'vitest';
import { parseDpi } from '../../../src/scan/scale/parse-dpi.ts';
import { caught } from '../../support/caught.ts';

describe('pixels to the inch as typed', () => {
  it.each([
    ['300', 300],
    ['299.5', 299.5],
    [' 600 ', 600],
    ['300dpi', 300],
    ['50', 50],
    ['2400', 2400],
  ])('reads %s', (typed, dpi) => expect(parseDpi(typed)).toBe(dpi));

  it.each(['', 'dpi', '300,5', '300x300', '-300', '3e2', '0', '49.9', '2401', 'Infinity', 'NaN', '0x12c'])(
    'refuses %j',
    (typed) => {
      const { code, where, hint } = caught(() => parseDpi(typed));
      expect({ code, where }).toEqual({ code: 'usage', where: '--dpi' });
      expect(hint).toMatch(/3\d\d/);
    },
  );
});
