import { describe, expect, it } from 'vitest';
import { transformPoint } from '../../../src/geometry/transform-path.ts';
import { scaleFromDpi } from '../../../src/scan/scale/scale-from-dpi.ts';
import { caught } from '../../support/caught.ts';

describe('the scale by pixels to the inch', () => {
  it('is what was typed: 300 pixels are an inch', () => {
    const { scale, findings } = scaleFromDpi({ typed: 300 }, 'scan.png');
    expect(scale).toMatchObject({ how: 'dpi', dpi: { x: 300, y: 300 }, turn: 0, shear: 0 });
    expect(scale.doubt).toBeUndefined();
    const { x, y } = transformPoint({ x: 300, y: 600 }, scale.toMm);
    expect([x, y]).toEqual([expect.closeTo(25.4, 9), expect.closeTo(50.8, 9)]);
    expect(findings).toEqual([]);
  });

  it('is otherwise what the file says, with a warning', () => {
    const { scale, findings } = scaleFromDpi({ file: 299.9 }, 'scan.png');
    expect(scale).toMatchObject({ how: 'file', dpi: { x: 299.9, y: 299.9 } });
    expect(findings).toMatchObject([{ weight: 'warning', kind: 'scale-from-file', where: 'scan.png' }]);
    expect(findings[0]!.message).toContain('299.9 dpi');
    expect(findings[0]!.cure).toContain('--test-square');
  });

  it('warns where the file says something else than was typed', () => {
    expect(scaleFromDpi({ typed: 300, file: 299.7 }, 'scan.png').findings).toEqual([]);
    const { scale, findings } = scaleFromDpi({ typed: 300, file: 600 }, 'scan.png');
    expect(scale.dpi.x).toBe(300);
    expect(findings).toMatchObject([{ weight: 'warning', kind: 'dpi-differs' }]);
  });

  it('is refused where nobody knows it, with what to do', () => {
    const { code, where, hint } = caught(() => scaleFromDpi({}, 'scan.png'));
    expect({ code, where }).toEqual({ code: 'usage', where: 'scan.png' });
    expect(hint).toMatch(/--test-square 50mm.*--dpi 300/);
  });
});
