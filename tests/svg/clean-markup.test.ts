import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cleanMarkup } from '../../src/svg/clean-markup.ts';
import { parseXml } from '../../src/svg/parse-xml.ts';

const clean = (markup: string): string =>
  cleanMarkup(parseXml(`<g xmlns:xlink="http://www.w3.org/1999/xlink">${markup}</g>`, 'f').root);

const escaped = (text: string): string =>
  text
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/\n/g, '&#10;')
    .replace(/\t/g, '&#9;');

describe('cleanMarkup', () => {
  it.each([
    '<script>run()</script>',
    '<style>@import "http://example.org/a.css"; g { fill: url(http://example.org) }</style>',
    '<foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><p>hi</p></body></foreignObject>',
    '<image href="http://example.org/a.png"/>',
    '<image xlink:href="file:///etc/passwd"/>',
    '<image href="data:image/svg+xml;base64,AAAA"/>',
    '<image href="data:text/html,x"/>',
    '<use href="#a"/>',
    '<use xlink:href="http://example.org/a.svg#b"/>',
    '<animate attributeName="href" to="javascript:run()"/>',
    '<set attributeName="onclick" to="run()"/>',
    '<iframe src="http://example.org"/>',
    '<o:script xmlns:o="urn:other">run()</o:script>',
    '<filter><feImage href="http://example.org"/></filter>',
  ])('drops %s', (markup) => expect(clean(markup)).toBe(''));

  it.each([
    ['<path d="M0 0" onclick="run()" ONLOAD="run()"/>', '<g><path d="M0 0"/></g>'],
    ['<a href="javascript:run()"><text>x</text></a>', '<g><g><text>x</text></g></g>'],
    ['<text><textPath href="#a">x</textPath></text>', '<g><text><tspan>x</tspan></text></g>'],
    ['<path d="M0 0" fill="url(#g)" filter="url(http://example.org)"/>', '<g><path d="M0 0"/></g>'],
    ['<path style="fill:url( http://example.org );stroke:red;behavior:url(x)"/>', '<g><path style="stroke:red"/></g>'],
    ['<path style="fill:\\75rl(x);stroke:red"/>', '<g><path style="stroke:red"/></g>'],
    ['<path style="fill:u/**/rl(x); stroke : blue"/>', '<g><path style="stroke : blue"/></g>'],
    ['<path style="background:image-set(&quot;x&quot; 1x)"/>', '<g><path/></g>'],
    ['<path data-kind="panel" data-sheet="1" aria-label="x"/>', '<g><path/></g>'],
    ['<image href="data:image/png;base64,AA\n AA=="/>', '<g><image href="data:image/png;base64,AAAA=="/></g>'],
    ['<text id="a&quot;&lt;&#10;">&lt;script> ]]&gt; ]]&gt;</text>', null],
  ])('keeps of %s what is harmless', (markup, expected) => {
    expect(clean(markup)).toBe(expected ?? clean(markup));
    expect(cleanMarkup(parseXml(clean(markup), 'f').root)).toBe(clean(markup));
  });

  it('keeps any text to the character, and changes nothing the second time', () => {
    const anyText = fc.string({
      unit: fc
        .constantFrom(...'<>&"\'] ab\t\n日🎭'.split(''), ']]>', '&amp;', '🎭')
        .filter((c) => !/^[\ud800-\udfff]$/.test(c)),
    });
    fc.assert(
      fc.property(anyText, anyText, (text, id) => {
        const once = cleanMarkup(parseXml(`<text id="${escaped(id)}">${escaped(text)}</text>`, 'f').root);
        const { root } = parseXml(once, 'f');
        expect(root.children.map(({ value }) => value).join('')).toBe(text);
        expect(root.attributes['id'] ?? '').toBe(/\\|@|url\(/.test(id) ? '' : id);
        expect(cleanMarkup(root)).toBe(once);
      }),
    );
  });
});
