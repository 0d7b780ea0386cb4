import { describe, expect, it } from 'vitest';
import { parseXml } from '../../src/svg/parse-xml.ts';
import { placeInAttribute, placeOf, rawAttribute, textOf } from '../../src/svg/xml-document.ts';
import { complaintOf } from './drawn-svg.ts';

const complaint = (source: string): string => complaintOf(() => parseXml(source, 'f.svg'));

describe('parseXml', () => {
  it('keeps elements, attributes and the text of text elements', () => {
    const { root } = parseXml('<svg a="1"><text> a &lt; <tspan>b</tspan><![CDATA[ & ]]></text>\n <g/></svg>', 'f');
    expect(root.attributes).toEqual({ a: '1' });
    expect(root.children.map(({ name }) => name)).toEqual(['text', 'g']);
    expect(textOf(root)).toBe(' a < b & ');
  });

  it('takes comments for comments, whatever stands in them', () => {
    const { root } = parseXml('<svg><!-- <path d="M0 0"/> bust="36 --><g/></svg>', 'f');
    expect(root.children.map(({ name }) => name)).toEqual(['g']);
  });

  it('knows elements and links by namespace, not by prefix', () => {
    const { root } = parseXml(
      '<s:svg xmlns:s="http://www.w3.org/2000/svg" xmlns:q="http://www.w3.org/1999/xlink" xmlns:o="urn:other"><s:use q:href="#a" o:label="waist" o:x="1"/></s:svg>',
      'f',
    );
    expect(root.local).toBe('svg');
    expect(root.children[0]).toMatchObject({ local: 'use', attributes: { 'xlink:href': '#a' }, label: 'waist' });
  });

  it('finds the line and column of elements and of characters in attributes', () => {
    const document = parseXml('<?xml version="1.0"?>\n<svg\n  id="é🎭"\n  d="M 0 0\n L x"/>', 'f.svg');
    expect(placeOf(document, document.root.offset)).toBe('f.svg:2:1');
    expect(placeInAttribute(document, document.root, 'd', 0)).toBe('f.svg:4:6');
    expect(placeInAttribute(document, document.root, 'd', 9)).toBe('f.svg:5:4');
    expect(rawAttribute(document, document.root, 'd')).toBe('M 0 0\n L x');
  });

  it('reads the value, not the source, of an attribute with references', () => {
    const document = parseXml('<svg d="M&#32;0 0"/>', 'f');
    expect(rawAttribute(document, document.root, 'd')).toBe('M 0 0');
  });

  it.each([
    ['<svg><g></svg>', 'input: f.svg:1:15: not well-formed XML: unexpected close tag'],
    ['<svg><path d="M0 0', 'input: f.svg:1:19: not well-formed XML: unclosed tag: svg'],
    ['<svg/><svg/>', 'input: f.svg:1:12: not well-formed XML: documents may contain only one root'],
    ['<svg a="1" a="2"/>', 'input: f.svg:1:18: not well-formed XML: duplicate attribute: a'],
    ['<svg>&nbsp;</svg>', 'input: f.svg:1:12: not well-formed XML: undefined entity'],
    ['<x:svg/>', 'input: f.svg:1:9: not well-formed XML: unbound namespace prefix: "x"'],
    ['plain words', 'input: f.svg:1:2: not well-formed XML: text data outside of root node'],
  ])('refuses %s', (source, expected) => {
    const [, where, reason] = /^(input: f\.svg:1):\d+: (.*)$/.exec(complaint(source)) ?? [];
    const [, expectedWhere, expectedReason] = /^(input: f\.svg:1):\d+: (.*)$/.exec(expected)!;
    expect(where).toBe(expectedWhere);
    expect(reason).toContain(expectedReason!.split(':')[0]);
  });
});

describe('entities', () => {
  it('reads the namespaces that drawing programs abbreviate with entities', () => {
    const source = `<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd" [
      <!ENTITY ns_svg "http://www.w3.org/2000/svg"> <!-- <!ENTITY ns_svg "no"> -->
      <!ENTITY ns_other 'urn:other'>
    ]><svg xmlns="&ns_svg;" id="&amp;&ns_other;"/>`;
    const { root } = parseXml(source, 'f');
    expect(root.namespace).toBe('http://www.w3.org/2000/svg');
    expect(root.attributes['id']).toBe('&urn:other');
  });

  it('refuses entities made of entities, which could grow without end', () => {
    const lol = '<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;"><!ENTITY c "&b;&b;&b;">]><svg>&c;</svg>';
    expect(complaint(lol)).toMatch(/^input: f\.svg:1:\d+: the entity b is made of other entities or markup$/);
    const parameter = '<!DOCTYPE svg [<!ENTITY % a "ha">]><svg/>';
    expect(complaint(parameter)).toMatch(/the entity a is made of other entities or markup$/);
  });

  it('refuses entities from outside the file', () => {
    const source = '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]><svg><text>&x;</text></svg>';
    expect(complaint(source)).toMatch(/^input: f\.svg:1:\d+: the entity x lies outside the file$/);
  });

  it('refuses one long entity used again and again', () => {
    const source = `<!DOCTYPE svg [<!ENTITY x "${'x'.repeat(1000)}">]><svg><text>${'&x;'.repeat(2000)}</text></svg>`;
    expect(complaint(source)).toMatch(/its entities make it too large$/);
    const long = `<!DOCTYPE svg [<!ENTITY x "${'x'.repeat(1001)}">]><svg/>`;
    expect(complaint(long)).toMatch(/the entity x is over 1000 characters$/);
  });

  it('does not know names of JavaScript as entities', () => {
    expect(complaint('<svg><text>&constructor;&toString;</text></svg>')).toMatch(/undefined entity/);
  });
});

describe('limits', () => {
  it('refuses 5,000 elements within one another', () => {
    expect(complaint('<g>'.repeat(5000))).toMatch(/^input: f\.svg:1:\d+: elements nested over 512 deep$/);
  });
});
