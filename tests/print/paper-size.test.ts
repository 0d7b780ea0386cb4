import { describe, expect, it } from 'vitest';
import { LONGEST_PAGE, paperNamed } from '../../src/print/paper-size.ts';

describe('a paper by name', () => {
  it('may be written in any case, with room round it', () => {
    expect(paperNamed(' A4 ')).toEqual({ name: 'a4', width: 210, height: 297, roll: false });
  });

  it('may be a size with one unit or with two', () => {
    expect(paperNamed('300x500mm')).toMatchObject({ width: 300, height: 500, roll: false });
    expect(paperNamed('30cm x 500 mm')).toMatchObject({ width: 300, height: 500 });
    expect(paperNamed('13x19in').width).toBeCloseTo(330.2, 9);
    expect(paperNamed('8.5x11in').height).toBeCloseTo(279.4, 9);
  });

  it('may be a roll, as long as a page may be', () => {
    expect(paperNamed('roll:36in')).toMatchObject({ roll: true, height: LONGEST_PAGE });
    expect(paperNamed('roll:36in').width).toBeCloseTo(914.4, 9);
  });

  it.each(['', 'a5', 'b4', '300x500', 'roll', 'roll:914', 'x', '-3x5in', '1e9x1mm', '0x0mm', '10x10mm', '9000x9000mm'])(
    'is refused as %o, with what to write instead',
    (text) => {
      expect(() => paperNamed(text)).toThrow(
        expect.objectContaining({ code: 'usage', hint: expect.stringContaining('roll:WIDTH') }),
      );
    },
  );
});
