import { inflateSync } from 'node:zlib';

const HEADER = 44;
const ENTRY = 20;
const inFours = (length: number): number => (length + 3) & ~3;

/**
 * The TrueType or OpenType font inside a WOFF 1.0 file: its tables inflated and laid end to end.
 * Checksums are carried over, not checked: the files come from installed packages.
 * Method: W3C WOFF File Format 1.0, sections 3 to 5.
 */
export const unwrapFont = (woff: Buffer): Buffer => {
  const count = woff.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, index) => {
    const at = HEADER + index * ENTRY;
    const start = woff.readUInt32BE(at + 4);
    const stored = woff.subarray(start, start + woff.readUInt32BE(at + 8));
    const length = woff.readUInt32BE(at + 12);
    return {
      tag: woff.readUInt32BE(at),
      checksum: woff.readUInt32BE(at + 16),
      length,
      bytes: stored.length < length ? inflateSync(stored) : stored,
    };
  });
  const start = 12 + 16 * count;
  const font = Buffer.alloc(tables.reduce((total, table) => total + inFours(table.length), start));
  woff.copy(font, 0, 4, 8);
  font.writeUInt16BE(count, 4);
  let offset = start;
  tables.forEach((table, index) => {
    const at = 12 + 16 * index;
    font.writeUInt32BE(table.tag, at);
    font.writeUInt32BE(table.checksum, at + 4);
    font.writeUInt32BE(offset, at + 8);
    font.writeUInt32BE(table.length, at + 12);
    table.bytes.copy(font, offset);
    offset += inFours(table.length);
  });
  return font;
};
