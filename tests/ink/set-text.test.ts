import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isolated, setText } from '../../src/ink/set-text.ts';

const textOf = (line: string): string =>
  setText(line)
    .glyphs.map(({ text }) => text)
    .join('');

describe('a line of text', () => {
  it.each([
    ['Latin', 'Vorderteil ŁÓDŹ ½ ≤'],
    ['Greek', 'μπροστινό'],
    ['Cyrillic', 'Боковая деталь'],
    ['Arabic', 'الجانب الأمامي'],
    ['Hebrew', 'צד קדמי'],
    ['Devanagari', 'सामने की पट्टी'],
    ['Thai', 'ชิ้นหน้า'],
    ['Japanese', '前中心線 ウエスト'],
    ['Chinese', '侧缝'],
    ['Korean', '앞중심선'],
    ['Georgian', 'წინა'],
    ['Armenian', 'առջեւ'],
    ['Amharic', 'አማርኛ'],
    ['Tamil', 'முன்பக்கம்'],
    ['Bengali', 'সামনে'],
    ['an emoji', 'side 🧵'],
  ])('has a glyph for every character of %s', (_, line) => {
    expect(setText(line).missing).toEqual([]);
    expect(setText(line).width).toBeGreaterThan(0);
    expect([...textOf(line)].toSorted()).toEqual([...line].toSorted());
  });

  it('joins Arabic letters: the same letter alone and in a word is drawn by different glyphs', () => {
    const alone = setText('ن').glyphs[0]!.id;
    const within = setText('جنب').glyphs.map(({ id }) => id);
    expect(within).not.toContain(alone);
  });

  it('sets Hebrew from right to left, and digits in it from left to right', () => {
    expect(textOf('צד')).toBe('דצ');
    expect(textOf('צד 12')).toBe('12 דצ');
  });

  it('keeps the digits after an isolated name where they are', () => {
    expect(textOf(`${isolated('צד')} · 3fa9`)).toBe('דצ · 3fa9');
  });

  it('stacks a Devanagari vowel sign before its consonant', () => {
    const glyphs = setText('कि').glyphs;
    expect(glyphs.length).toBeGreaterThan(0);
    expect(glyphs[0]!.id).not.toBe(setText('क').glyphs[0]!.id);
  });

  it('shows a box for a character that no font has, and lists it', () => {
    const line = setText('side \u{10FFFD}');
    expect(line.missing).toEqual(['\u{10FFFD}']);
    expect(line.glyphs.at(-1)!.id).toBe(0);
  });

  it('takes anything that can be typed', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: 'grapheme' })), (line) => {
        const { glyphs, width } = setText(line);
        expect(width).toBeGreaterThanOrEqual(0);
        expect(glyphs.every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it('takes half of a surrogate pair, and line breaks, as one line', () => {
    expect(setText('a\uD83Eb').width).toBeGreaterThan(setText('ab').width);
    expect(textOf('front\nside')).toBe('front side');
  });
});
