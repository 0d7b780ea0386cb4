import { expect, test } from 'vitest';
import { formatLength, formatSigned, mixedFraction } from '../../src/pattern/format-length.ts';
import { typedLength } from '../../src/pattern/typed-length.ts';

test('millimetres are shown to a hundredth', () => {
  expect(formatLength(12.7, 'mm')).toBe('12.70 mm');
  expect(formatLength(-0.001, 'mm')).toBe('0.00 mm');
});

test('inches are shown decimally with the nearest sixteenth beside', () => {
  expect(formatLength(12.7, 'in')).toBe('0.500 in (1/2)');
  expect(formatLength(15.875, 'in')).toBe('0.625 in (5/8)');
  expect(formatLength(-38.1, 'in')).toBe('-1.500 in (-1 1/2)');
  expect(formatLength(914.4, 'in')).toBe('36.000 in (36)');
  expect(formatLength(0, 'in')).toBe('0.000 in (0)');
  expect(formatLength(25.39, 'in')).toBe('1.000 in (1)');
});

const shown = (inches: number): string => /\((.*)\)/.exec(formatLength(inches * 25.4, 'in'))![1]!;

test('what is left over the nearest sixteenth stands after it, in sixty-fourths', () => {
  expect([47 / 64, 35.394, 30.172, 1 / 64, 3 / 64, -47 / 64, -1 / 64, -1.703].map(shown)).toEqual([
    '3/4 - 1/64',
    '35 3/8 + 1/64',
    '30 3/16 - 1/64',
    '1/64',
    '1/16 - 1/64',
    '-3/4 + 1/64',
    '-1/64',
    '-1 11/16 - 1/64',
  ]);
  expect([1 / 32, 3 / 32, -3 / 32].map(shown)).toEqual(['1/32', '1/16 + 1/32', '-1/16 - 1/32']);
});

test('a signed length says plus, but not before nothing', () => {
  expect(formatSigned(3.2, 'mm')).toBe('+3.20 mm');
  expect(formatSigned(-3.2, 'mm')).toBe('-3.20 mm');
  expect(formatSigned(0.0004, 'mm')).toBe('0.00 mm');
  expect(formatSigned(6.35, 'in')).toBe('+0.250 in (1/4)');
});

test('fractions are in lowest terms', () => {
  expect([1, 2, 8, 40, 64, 96, 0, -8].map(mixedFraction)).toEqual([
    '1/64',
    '1/32',
    '1/8',
    '5/8',
    '1',
    '1 1/2',
    '0',
    '-1/8',
  ]);
});

test('a length to type is never more than it stands for', () => {
  expect(typedLength(12.39, 'mm')).toEqual({ mm: 12.3, text: '12.3mm' });
  expect(typedLength(12, 'mm').text).toBe('12mm');
  expect(typedLength(12.7, 'in')).toEqual({ mm: 12.7, text: '1/2in' });
  expect(typedLength(40, 'in').text).toBe('1 9/16in');
  expect(typedLength(0.03, 'mm').mm).toBe(0);
});
