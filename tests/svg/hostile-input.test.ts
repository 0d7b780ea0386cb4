import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeText } from '../../src/svg/decode-xml.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { halfPattern } from '../support/half-pattern.ts';
import { complaintOf, drawingOf, millimetres } from './drawn-svg.ts';

const SHEET = writeSheet({
  pattern: halfPattern(),
  record: [
    { command: 'label', version: '0.1.0', before: null, after: 'a', girth_mm: { waist: { before: null, after: 600 } } },
  ],
});

const DRAWING = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd" [<!ENTITY ns "http://www.w3.org/2000/svg">]>
<svg xmlns="&ns;" xmlns:xlink="http://www.w3.org/1999/xlink" width="210mm" height="297mm" viewBox="0 0 210 297">
<style>.a { fill: none }</style><defs><symbol id="s" viewBox="0 0 9 9"><circle cx="4" cy="4" r="4"/></symbol></defs>
<g id="front" transform="translate(10,20) rotate(3)"><path class="a" d="m10,10c5-3 9,4 20 0s10 5 20,0q5 3 9 0t8 3a5 5 0 0130 4h3v60l-80 4z"/>
<line class="waist" x1="1cm" x2="5%" y1="3" y2="4"/><polyline points="0,0 5,5 9 9"/><text x="4" y="5">cut &amp; sew<tspan dy="1em">2</tspan></text></g>
<use xlink:href="#s" x="10" y="4" width="30" height="20"/><svg x="4" width="40" height="40" viewBox="0 0 10 10" preserveAspectRatio="xMinYMax slice"><rect width="4" height="5" rx="1"/></svg>
<image width="4" height="5" href="data:image/png;base64,AAAA"/></svg>`;

/** What mutations put in: pieces of XML, of SVG and of numbers that hurt. */
const SCRAPS = [
  '<',
  '>',
  '"',
  "'",
  '&',
  '&#0;',
  '&#x41;',
  ']]>',
  '<!--',
  '-->',
  '<![CDATA[',
  '<?x',
  '</g>',
  '<g>',
  '<svg>',
  '</svg>',
  '<use href="#front"/>',
  '<use href="#s"/>',
  '1e999',
  '-1e308',
  'NaN',
  '0',
  '-',
  '.',
  ',',
  'e',
  '%',
  'mm',
  'M',
  'Z',
  'A',
  'a1 1 0 0 1',
  ' transform="scale(0)"',
  ' transform="scale(1e200)"',
  ' viewBox="0 0 0 0"',
  ' id="front"',
  ' data-kind="edge"',
  ' data-kind="panel"',
  ' data-sheet="1"',
  '\u0000',
  '\ufffe',
  '\ud800',
  '🎭',
  '\n',
  ' display="none"',
  ' constructor="1"',
  ' __proto__="1"',
];

const mutated = (source: string): fc.Arbitrary<string> =>
  fc
    .array(
      fc.record({
        at: fc.nat(source.length - 1),
        cut: fc.nat(40),
        scrap: fc.oneof(fc.constantFrom(...SCRAPS), fc.constant(''), fc.string({ unit: 'binary', maxLength: 3 })),
      }),
      { minLength: 1, maxLength: 4 },
    )
    .map((changes) =>
      changes.reduce((text, { at, cut, scrap }) => text.slice(0, at) + scrap + text.slice(at + cut), source),
    );

/** Reads a text; an error that is not meant for users comes through. */
const outcome = (text: string): string =>
  complaintOf(() => {
    const reading = readSvg(text, 'f.svg');
    if (reading.kind === 'sheet') writeSheet(reading.sheet);
  });

/** Read, or refused in a line for users that no length of input makes long. */
const FAIR = /^(?:none|(?:input|usage): [^]{10,400})$/;

describe('broken files', () => {
  it('end in an error for users or are read, wherever a sheet or a drawing is damaged', () => {
    fc.assert(
      fc.property(mutated(DRAWING), (text) => {
        expect(outcome(text)).toMatch(FAIR);
      }),
      { numRuns: 300 },
    );
    fc.assert(
      fc.property(mutated(SHEET), (text) => {
        expect(outcome(text)).toMatch(FAIR);
      }),
      { numRuns: 100 },
    );
  });

  it('end so wherever they are cut off', () => {
    for (let at = 0; at < DRAWING.length; at += 7) {
      expect(complaintOf(() => drawingOf(DRAWING.slice(0, at)))).toMatch(
        /^input: drawn\.svg:\d+:\d+: not well-formed XML/,
      );
    }
    for (let at = 0; at < SHEET.length; at += 97) expect(outcome(SHEET.slice(0, at))).toMatch(FAIR);
  });

  it('of any bytes are decoded or refused', () => {
    const bytes = new TextEncoder().encode(DRAWING);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 }),
        (changes) => {
          const copy = bytes.slice();
          for (const [at, value] of changes) copy[at] = value;
          expect(complaintOf(() => drawingOf(decodeText(copy, 'f.svg')))).toMatch(FAIR);
        },
      ),
      { numRuns: 100 },
    );
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (any) => {
        expect(complaintOf(() => drawingOf(decodeText(any, 'f.svg')))).toMatch(FAIR);
      }),
    );
  });
});

describe('nasty input', () => {
  it.each([
    ['<svg xmlns="http://www.w3.org/2000/svg" width="1e-320mm" viewBox="0 0 1 1"><rect width="1" height="1"/></svg>'],
    [
      '<svg xmlns="http://www.w3.org/2000/svg" width="1e308mm" height="1e308mm"><rect width="1e308" height="1e308"/></svg>',
    ],
    ['<svg viewBox="0 0 1e-308 1e308"><rect width="1" height="1"/></svg>'],
    ['<svg><g transform="matrix(0 0 0 0 0 0)"><circle r="9"/><path d="M0 0A1 1 0 0 1 9 9"/></g></svg>'],
    ['<svg><g transform="scale(0)"><path d="M0 0H9V9Z"/></g></svg>'],
    ['<svg><path d="M0 0A1e300 1e300 0 0 1 1e-300 1"/></svg>'],
    ['<svg><path d="M0 0A1e-300 1e-300 0 1 1 1 1"/></svg>'],
    ['<svg><circle r="1e308"/></svg>'],
    ['<svg><circle r="1e60"/></svg>'],
    ['<svg><ellipse rx="1e9" ry="1e-9"/></svg>'],
    ['<svg><path d="M5e-324 0C0 5e-324 0 0 5e-324 5e-324Z"/></svg>'],
    ['<svg><use id="a" href="#a"/></svg>'],
    ['<svg id="root"><use href="#root"/></svg>'],
    ['<svg><text id="t">x<tspan x="1mm">y</tspan></text><use href="#t"/></svg>'],
    ['<svg><text x="wide">x</text></svg>'],
    ['<svg><text style="font-size:1e999px">x</text></svg>'],
    ['<svg/>'],
    ['<svg data-sheet="1"/>'],
    ['<html><body/></html>'],
  ])('%s is read or refused', (text) => expect(outcome(text)).toMatch(FAIR));

  it('names an element that is no drawing', () => {
    expect(complaintOf(() => drawingOf('<html/>'))).toBe('input: drawn.svg:1:1: this is <html>, not <svg>');
  });
});

const secondsFor = (svg: string): number => {
  const start = performance.now();
  drawingOf(svg);
  return (performance.now() - start) / 1000;
};

const many = (count: number, make: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => make(i)).join('');

const LARGE: Readonly<Record<string, (count: number) => string>> = {
  'many lines': (count) => many(count, (i) => `<path d="M${i % 900} ${i / 900}l0.3 0.2"/>\n`),
  'many lines from one point': (count) => many(count, (i) => `<path d="M500 500L${i % 900} ${(i * 7) % 900}"/>`),
  'one long path': (count) => `<path d="M0 0${many(count, (i) => `c1 2 3 4 ${(i % 7) - 3} ${(i % 5) - 2}`)}z"/>`,
  'long text': (count) =>
    `<text>${many(count, () => '<![CDATA[ a ]]> &amp; ')}</text><!-- ${many(count, () => 'xxxxxxxxxx')} -->`,
};

describe('large drawings', () => {
  it.each(Object.keys(LARGE))('of %s take time in proportion', (kind) => {
    const make = (count: number): string => millimetres(LARGE[kind]!(count));
    secondsFor(make(500));
    const small = Math.min(secondsFor(make(2000)), secondsFor(make(2000)));
    const large = secondsFor(make(20_000));
    // Ten times the size; growth with the square would be a hundredfold. The second is for a busy machine.
    expect(large).toBeLessThan(Math.max(40 * small, 1));
  });
});
