import { describe, expect, it } from 'vitest';
import { cssLength, isAbsoluteLength } from '../../src/svg/css-length.ts';
import { complaintOf } from './drawn-svg.ts';

const context = { width: 200, height: 100, fontSize: 20, rootFontSize: 16, pageWidth: 400, pageHeight: 300 };
const px = (text: string, of: 'width' | 'height' | 'diagonal' | 'font' = 'width'): number =>
  cssLength(text, of, context, 'f:1:1');

describe('cssLength', () => {
  it('reads numbers in every form that CSS allows', () => {
    expect(['7', '+7', '7.0', ' 7px ', '.7e1', '70E-1'].map((text) => px(text))).toEqual([7, 7, 7, 7, 7, 7]);
    expect(px('-1.5mm')).toBeCloseTo((-1.5 * 96) / 25.4, 12);
    expect(px('1IN')).toBe(96);
  });

  it('reads relative units against what they are relative to', () => {
    expect(px('10%')).toBe(20);
    expect(px('10%', 'height')).toBe(10);
    expect(px('10%', 'diagonal')).toBeCloseTo(Math.sqrt((200 ** 2 + 100 ** 2) / 2) / 10, 12);
    expect([px('2em'), px('2ex'), px('2ch'), px('2rem')]).toEqual([40, 20, 20, 32]);
    expect([px('1vw'), px('1vh'), px('1vmin'), px('1vmax')]).toEqual([4, 3, 3, 4]);
  });

  it.each(['', 'mm', '1 mm', '1,5mm', '12furlong', '1e400', 'calc(1px)', '--1', '1constructor', 'NaN', 'Infinity'])(
    'refuses %j with the place',
    (text) => expect(complaintOf(() => px(text))).toMatch(/^input: f:1:1: /),
  );

  it('knows which lengths have a size of their own', () => {
    expect(['210mm', '8.5in', '1Q', '12pt'].every(isAbsoluteLength)).toBe(true);
    expect(['210', '210px', '50%', '1em', ''].some(isAbsoluteLength)).toBe(false);
  });
});
