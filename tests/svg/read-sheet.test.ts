import { describe, expect, it } from 'vitest';
import { readSvg } from '../../src/svg/read-svg.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { complaintOf, sheetOf } from './drawn-svg.ts';

const GOOD = writeSheet({ pattern: boxPattern(2), record: [] });
const complaint = (text: string): string => complaintOf(() => readSvg(text, 'sheet.svg'));

describe('readSvg of a sheet', () => {
  it('reads what a drawing program adds without harm: layers, moves, foreign markup, other artwork', () => {
    const edited = GOOD.replace(
      '<g id="panel-1"',
      '<g id="layer1" transform="translate(3,4)"><o:view xmlns:o="urn:other"/><g id="panel-1" o:label="x" xmlns:o="urn:other"',
    )
      .replace('</g>', '<circle r="4" onclick="run()"/></g></g>')
      .replace('translate(20,200)', 'matrix(1 0 0 1 77.5 -3)')
      .replace('</svg>', '<script>run()</script><text>about</text></svg>');
    const sheet = sheetOf(edited);
    const plain = sheetOf(GOOD);
    expect(sheet.pattern.panels.map(({ edges }) => edges)).toEqual(plain.pattern.panels.map(({ edges }) => edges));
    expect(sheet.pattern.panels[0]!.art).toBe('<circle r="4"/>');
    expect(sheet.art).toBe('<text>about</text>');
    expect(sheetOf(writeSheet(sheet)).art).toBe('<text>about</text>');
  });

  it.each<[string, string | RegExp, string, string]>([
    [
      'another kind of sheet',
      'data-sheet="1"',
      'data-sheet="2"',
      "this is a sheet of kind '2', and only kind 1 is known",
    ],
    ['unknown pieces', 'data-pieces="pairs"', 'data-pieces="both"', "data-pieces must be 'pairs' or 'single'"],
    ['unknown units', 'data-units="mm"', '', "data-units must be 'mm' or 'in'"],
    ['another scale', /width="\d+mm"/, 'width="100mm"', 'width and height must be in mm and equal the viewBox'],
    ['px instead of mm', /width="(\d+)mm"/, 'width="$1"', 'width and height must be in mm and equal the viewBox'],
    [
      'a panel that was turned',
      'translate(20,200)',
      'rotate(5)',
      'panel-1 is turned or scaled; on a sheet a panel may only be moved',
    ],
    ['a panel without a name', 'id="panel-1"', 'id=""', 'panel : it has no name (id)'],
    ['two panels of one name', 'id="panel-2"', 'id="panel-1"', 'two panels are named panel-1'],
    ['no word on the line', 'data-line="stitching"', '', "panel panel-1: data-line must be 'cutting' or 'stitching'"],
    [
      'a gap between edges',
      'M 0,-180\n',
      'M 0,-180.001\n',
      'panel panel-1: edge cf ends at 0,-180, but edge top begins at 0,-180.001',
    ],
    ['two edges of one name', 'data-edge="seam-1" d', 'data-edge="top" d', 'panel panel-1: two edges are named top'],
    ['an edge without a name', 'data-edge="top"', 'data-edge=""', 'panel panel-1: an edge has no data-edge'],
    ['an unknown kind', 'data-kind="level"', 'data-kind="leval"', "panel panel-1: unknown data-kind 'leval'"],
    [
      'a notch on no edge',
      'data-kind="notch" data-edge="seam-1"',
      'data-kind="notch" data-edge="side"',
      'panel panel-1: a notch is on an edge side, which is not there',
    ],
    ['a tilted level', 'M 0,0 L 80,0', 'M 0,0 L 80,1', 'panel panel-1: level waist is not horizontal'],
    [
      'a level of two pieces',
      'M 0,0 L 80,0',
      'M 0,0 L 40,0 L 80,0',
      'panel panel-1: level waist must be one straight line',
    ],
    ['two levels of one name', 'data-level="bust"', 'data-level="waist"', 'panel panel-1: two levels are named waist'],
    [
      'relative path data',
      'L 80,-180',
      'l 80,0',
      "panel panel-1: edge top has 'l' where only one M, then L and C may stand",
    ],
    [
      'two pieces in an edge',
      'L 80,-180',
      'M 0,0 L 80,-180',
      "panel panel-1: edge top has 'M' where only one M, then L and C may stand",
    ],
    [
      'a closed edge',
      'L 80,-180',
      'L 80,-180 Z',
      "panel panel-1: edge top has 'Z' where only one M, then L and C may stand",
    ],
    ['an edge that draws nothing', 'M 0,-180\n        L 80,-180', 'M 0,-180', 'panel panel-1: edge top draws nothing'],
    [
      'an edge moved by itself',
      'data-edge="top"',
      'data-edge="top" transform="scale(2)"',
      'panel panel-1: edge top has a transform of its own',
    ],
    [
      'a width in inches',
      'data-edge="top"',
      'data-edge="top" data-allowance="1in"',
      "panel panel-1: edge top: data-allowance must be like '15mm'",
    ],
    ['numbers that are not finite', 'L 80,-180', 'L 1e999,-180', 'path data has a number that is not finite: 1e999'],
    ['a part of nothing', 'data-units="mm"', 'data-units="mm" data-part="3/2"', "data-part '3/2' must be like '2/6'"],
    [
      'a broken record',
      '<g id="panel-1"',
      '<metadata data-kind="changes">{"command":</metadata><g id="panel-1"',
      'line 1 of the record of changes cannot be read',
    ],
    [
      'a record of something else',
      '<g id="panel-1"',
      '<metadata data-kind="changes">\n[1]\n</metadata><g id="panel-1"',
      'line 1 of the record of changes cannot be read',
    ],
  ])('refuses %s', (_, from, to, message) => {
    const text = GOOD.replace(from, to);
    expect(text).not.toBe(GOOD);
    expect(complaint(text).replace(/^input: sheet\.svg:\d+:\d+: /, '')).toBe(message);
  });

  it('refuses edges that run anticlockwise, and a sheet without panels', () => {
    const mirrored = GOOD.replaceAll(/(?<=[ML] )(-?\d+),/g, (_, x: string) => `${0 - Number(x)},`);
    expect(complaint(mirrored)).toMatch(/panel panel-1: its edges must run clockwise round it$/);
    const empty = GOOD.replace(/ {2}<g id[^]*<\/g>\n/, '');
    expect(complaint(empty)).toMatch(/^input: sheet\.svg:2:1: the sheet holds no panel$/);
  });

  it('puts levels in order from the highest down, and from left to right', () => {
    const text = GOOD.replace('M 0,-120 L 80,-120', 'M 80,140 L 0,140');
    const levels = sheetOf(text).pattern.panels[0]!.levels;
    expect(levels.map(({ name }) => name)).toEqual(['waist', 'bust', 'hip']);
    expect(levels[1]).toEqual({ name: 'bust', y: 140, fromX: 0, toX: 80 });
  });

  it('warns where a file holds one panel of several', () => {
    const reading = readSvg(GOOD.replace('data-units="mm"', 'data-units="mm" data-part="2/6"'), 'f.svg');
    expect(reading).toMatchObject({ warnings: ['this is panel 2 of 6; the whole pattern is read from its folder'] });
  });
});
