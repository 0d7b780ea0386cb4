import { StaywrightError } from '../errors.ts';
import { MOST_BYTES } from './limits.ts';

const startsWith = (bytes: Uint8Array, ...start: readonly number[]): boolean =>
  bytes.length >= start.length && start.every((byte, i) => bytes[i] === byte);

const FOREIGN: readonly { readonly start: readonly number[]; readonly what: string; readonly hint: string }[] = [
  { start: [0x25, 0x50, 0x44, 0x46], what: 'a PDF', hint: 'open it in a drawing program and save it as SVG' },
  {
    start: [0x89, 0x50, 0x4e, 0x47],
    what: 'a PNG picture',
    hint: 'a scan is traced first: staywright trace',
  },
  {
    start: [0xff, 0xd8, 0xff],
    what: 'a JPEG picture',
    hint: 'a scan is traced first: staywright trace',
  },
  { start: [0x1f, 0x8b], what: 'compressed', hint: 'unpack it with gunzip first' },
  { start: [0x50, 0x4b, 0x03, 0x04], what: 'a ZIP archive', hint: 'unpack it first' },
];

/** The encoding named in an XML declaration, in lower case. */
const declaredEncoding = (bytes: Uint8Array): string | undefined => {
  const head = String.fromCharCode(...bytes.subarray(0, 200));
  return /^<\?xml[^>]*?\sencoding\s*=\s*["']([A-Za-z][\w.:-]*)["']/.exec(head)?.[1]?.toLowerCase();
};

const encodingOf = (bytes: Uint8Array): string => {
  if (startsWith(bytes, 0xef, 0xbb, 0xbf)) return 'utf-8';
  if (startsWith(bytes, 0xff, 0xfe, 0, 0) || startsWith(bytes, 0, 0, 0xfe, 0xff)) return 'utf-32';
  if (startsWith(bytes, 0xff, 0xfe) || startsWith(bytes, 0x3c, 0)) return 'utf-16le';
  if (startsWith(bytes, 0xfe, 0xff) || startsWith(bytes, 0, 0x3c)) return 'utf-16be';
  const declared = declaredEncoding(bytes);
  // A declaration that can be read byte by byte cannot be of UTF-16, whatever it says.
  return declared === undefined || declared.startsWith('utf-16') ? 'utf-8' : declared;
};

/**
 * The text of an XML file: UTF-8, UTF-16 (by its mark or its first character), or the encoding that it declares.
 * Line ends become `\n`, the byte order mark goes. Throws an `input` error for an empty, oversized or binary file and for
 * bytes that are not of the encoding: text is never misread.
 */
export const decodeText = (bytes: Uint8Array, file: string): string => {
  const fail = (message: string, hint?: string): never => {
    throw new StaywrightError('input', message, { where: file, ...(hint === undefined ? {} : { hint }) });
  };
  if (bytes.length === 0) fail('the file is empty');
  if (bytes.length > MOST_BYTES) fail(`the file is over ${MOST_BYTES / 1024 / 1024} MB`, 'take out embedded pictures');
  const foreign = FOREIGN.find(({ start }) => startsWith(bytes, ...start));
  if (foreign) fail(`this is ${foreign.what}, not an SVG`, foreign.hint);

  const encoding = encodingOf(bytes);
  let text = '';
  try {
    text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    fail(`the file is not ${encoding} text`, 'save it as SVG in UTF-8');
  }
  if (text.includes('\0')) fail('this is a binary file, not an SVG', 'save the drawing as SVG');
  if (text.trim() === '') fail('the file is empty');
  return text.replace(/\r\n?/g, '\n');
};
