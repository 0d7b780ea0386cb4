import { describe, expect, it } from 'vitest';
import { decodeText } from '../../src/svg/decode-xml.ts';
import { complaintOf } from './drawn-svg.ts';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const utf16 = (text: string, big: boolean): Uint8Array => {
  const bytes = new Uint8Array(text.length * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < text.length; i += 1) view.setUint16(2 * i, text.charCodeAt(i), !big);
  return bytes;
};
const complaint = (bytes: Uint8Array): string => complaintOf(() => decodeText(bytes, 'f.svg'));

describe('decodeText', () => {
  it('reads UTF-8 with and without a byte order mark, and any line ends', () => {
    expect(decodeText(utf8('<svg>Łódź 日</svg>\r\n\r'), 'f')).toBe('<svg>Łódź 日</svg>\n\n');
    expect(decodeText(utf8('\ufeff<svg/>'), 'f')).toBe('<svg/>');
  });

  it('reads UTF-16 of either byte order, with or without its mark', () => {
    for (const big of [true, false]) {
      expect(decodeText(utf16('\ufeff<svg>é日</svg>', big), 'f')).toBe('<svg>é日</svg>');
      expect(decodeText(utf16('<?xml version="1.0" encoding="UTF-16"?><svg>é</svg>', big), 'f')).toContain(
        '<svg>é</svg>',
      );
    }
  });

  it('reads the encoding that the file declares', () => {
    const latin = new Uint8Array([
      ...utf8('<?xml version="1.0" encoding="ISO-8859-1"?><svg>'),
      0xe9,
      ...utf8('</svg>'),
    ]);
    expect(decodeText(latin, 'f')).toContain('<svg>é</svg>');
  });

  it('refuses what is not text of its encoding rather than misread it', () => {
    expect(complaint(new Uint8Array([0x3c, 0x73, 0xe9, 0x3e]))).toBe('input: f.svg: the file is not utf-8 text');
    expect(complaint(new Uint8Array([0xff, 0xfe, 0, 0, 0x3c, 0, 0, 0]))).toBe(
      'input: f.svg: the file is not utf-32 text',
    );
    expect(complaint(utf16('<svg>\ud800</svg>', false))).toBe('input: f.svg: the file is not utf-16le text');
    expect(complaint(utf8('<?xml version="1.0" encoding="no-such"?><svg/>'))).toBe(
      'input: f.svg: the file is not no-such text',
    );
  });

  it('says what a foreign file is', () => {
    expect(complaint(utf8('%PDF-1.7'))).toBe('input: f.svg: this is a PDF, not an SVG');
    expect(complaint(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10]))).toBe(
      'input: f.svg: this is a PNG picture, not an SVG',
    );
    expect(complaint(new Uint8Array([0x1f, 0x8b, 8, 0]))).toBe('input: f.svg: this is compressed, not an SVG');
    expect(complaint(new Uint8Array([1, 2, 0, 3]))).toBe('input: f.svg: this is a binary file, not an SVG');
    expect(complaint(new Uint8Array())).toBe('input: f.svg: the file is empty');
    expect(complaint(utf8(' \n\t '))).toBe('input: f.svg: the file is empty');
  });
});
