/** What a file is, told by how it begins: names and endings are often wrong. */
export type PictureFormat =
  | { readonly kind: 'read'; readonly name: 'PNG' | 'JPEG' | 'TIFF' }
  /** A picture, or what could be taken for one, that is not read. */
  | { readonly kind: 'other'; readonly name: string }
  | { readonly kind: 'drawing' | 'pdf' | 'empty' | 'unknown' };

/** How many bytes of its beginning tell a file: an SVG may open with a long comment. */
export const TELLING_BYTES = 4096;

type Sign = readonly [text: string, at?: number];

/** In Latin-1, so that each letter is one byte. */
const READ: readonly (readonly [name: 'PNG' | 'JPEG' | 'TIFF', signs: readonly Sign[]])[] = [
  ['PNG', [['\x89PNG\r\n\x1a\n']]],
  ['JPEG', [['\xff\xd8\xff']]],
  ['TIFF', [['II*\0'], ['MM\0*'], ['II+\0'], ['MM\0+']]],
];

const OTHERS: readonly (readonly [name: string, signs: readonly Sign[]])[] = [
  ['a GIF', [['GIF8']]],
  ['a WebP picture', [['WEBP', 8]]],
  ['a HEIC or AVIF picture', ['heic', 'heix', 'hevc', 'mif1', 'msf1', 'avif', 'avis'].map((brand) => [brand, 8])],
  ['a BMP', [['BM']]],
  ['a JPEG 2000 picture', [['jP  ', 4], ['\xff\x4f\xff\x51']]],
  ['a JPEG XL picture', [['JXL ', 4], ['\xff\x0a']]],
  ['a layered picture', [['8BPS'], ['gimp xcf']]],
];

/** The format of a file of which `start` is the beginning, `TELLING_BYTES` long or all of it. */
export const pictureFormat = (start: Uint8Array): PictureFormat => {
  if (start.length === 0) return { kind: 'empty' };
  const text = Buffer.from(start.buffer, start.byteOffset, Math.min(start.length, TELLING_BYTES)).toString('latin1');
  const shows = (signs: readonly Sign[]): boolean => signs.some(([sign, at = 0]) => text.startsWith(sign, at));
  const read = READ.find(([, signs]) => shows(signs));
  if (read !== undefined) return { kind: 'read', name: read[0] };
  if (text.startsWith('%PDF-')) return { kind: 'pdf' };
  if (/^(?:\xef\xbb\xbf)?\s*<[^]*<svg\b|^(?:\xef\xbb\xbf)?\s*<svg\b/.test(text)) return { kind: 'drawing' };
  const other = OTHERS.find(([, signs]) => shows(signs));
  return other === undefined ? { kind: 'unknown' } : { kind: 'other', name: other[0] };
};
