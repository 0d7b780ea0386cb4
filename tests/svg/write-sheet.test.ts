import * as fc from 'fast-check';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { pathEnd, pathStart } from '../../src/geometry/path.ts';
import { point } from '../../src/geometry/point.ts';
import { line } from '../../src/geometry/segment.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Change } from '../../src/record/change.ts';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import { panelSheets } from '../../src/svg/panel-sheets.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { halfPattern } from '../support/half-pattern.ts';
import { anySheet, withoutPlacing, withoutTexts } from './arbitrary-sheet.ts';
import { sheetOf } from './drawn-svg.ts';

/** The lines in which two texts differ. */
const changedLines = (before: string, after: string): string[] => {
  const known = new Set(before.split('\n'));
  return after.split('\n').filter((text) => !known.has(text));
};

describe('a sheet', () => {
  it('that is written and read is the same sheet, and writes the same bytes again', () => {
    fc.assert(
      fc.property(anySheet, (sheet) => {
        const text = writeSheet(sheet);
        const read = sheetOf(text);
        expect(withoutPlacing(withoutTexts(read))).toEqual(sheet);
        expect(writeSheet(read)).toBe(text);
        expect(writeSheet(withoutTexts(read))).toBe(text);
      }),
    );
  });

  it('rounds to 3 decimals, without -0, and is the same from the second time on', () => {
    const pattern = boxPattern(1);
    const [panel] = pattern.panels as [Panel];
    const edges = panel.edges.map((edge) => ({
      ...edge,
      path: {
        segments: edge.path.segments.map(({ start, end }) =>
          line(point(start.x - 0.0004, start.y / 3), point(end.x - 0.0004, end.y / 3)),
        ),
      },
    }));
    const text = writeSheet({ pattern: { ...pattern, panels: [{ ...panel, edges }] }, record: [] });
    expect(text).toContain('M 0,-60\n        L 80,-60"');
    expect(text).not.toMatch(/-0[,\s"]/);
    expect(text).not.toMatch(/\.\d{4}/);
    expect(writeSheet(sheetOf(text))).toBe(text);
  });

  it('holds one segment a line, so that one changed edge changes its own lines alone', () => {
    const pattern = halfPattern();
    const text = writeSheet({ pattern, record: [] });
    const read = sheetOf(text);
    const [first, ...rest] = read.pattern.panels as [Panel, ...Panel[]];
    const [top, ...others] = first.edges;
    const bowed = {
      name: top!.name,
      path: { segments: [line(pathStart(top!.path), point(1.5, -180)), line(point(1.5, -180), pathEnd(top!.path))] },
    };
    const altered = {
      ...read,
      pattern: { ...read.pattern, panels: [{ ...first, edges: [bowed, ...others] }, ...rest] },
    };
    const lines = changedLines(text, writeSheet(altered));
    expect(lines.length).toBeLessThanOrEqual(2);
    expect(lines.every((one) => /^\s+L /.test(one))).toBe(true);
  });

  it('keeps the characters of edges that nobody changed, whatever their spacing, decimals and line ends', () => {
    const text = writeSheet({ pattern: boxPattern(2), record: [] });
    const odd = text.replace('M 80,-180\n        L 80,180"', 'M80 -180.0\n\tL 80.123456789,-20 , 80.00000,+1.8e2"');
    expect(odd).not.toBe(text);
    const again = writeSheet(sheetOf(odd));
    expect(again).toContain('d="M80 -180.0\n\tL 80.123456789,-20 , 80.00000,+1.8e2"');
    expect(writeSheet(sheetOf(again))).toBe(again);
  });

  it('writes a point that a changed edge shares with an unchanged one exactly as that one holds it', () => {
    const fine = writeSheet({ pattern: boxPattern(1), record: [] }).replaceAll('80,-180', '80.12345678,-180.00049');
    const { pattern } = sheetOf(fine);
    const [panel] = pattern.panels as [Panel];
    const [top, ...others] = panel.edges;
    const { text: _, ...changed } = top!;
    const text = writeSheet({
      pattern: { ...pattern, panels: [{ ...panel, edges: [changed, ...others] }] },
      record: [],
    });
    expect(text).toContain('L 80.12345678,-180.00049"');
    expect(writeSheet(sheetOf(text))).toBe(text);
  });

  it('leaves out segments that round to nothing, and never writes edges that do not meet', () => {
    const pattern = boxPattern(1);
    const [panel] = pattern.panels as [Panel];
    const [top, ...others] = panel.edges;
    const tiny = point(0.0001, -180);
    const split = { ...top!, path: { segments: [line(point(0, -180), tiny), line(tiny, point(80, -180))] } };
    const write = (edges: Panel['edges']): string =>
      writeSheet({ pattern: { ...pattern, panels: [{ ...panel, edges }] }, record: [] });
    expect(write([split, ...others])).toContain('d="M 0,-180\n        L 80,-180"');
    const apart = { ...top!, path: { segments: [line(point(0, -180), point(80, -179))] } };
    expect(() => write([apart, ...others])).toThrow(/is not closed|does not end/);
  });

  it('lines panels up at the waist, side by side, on a page that holds them all in millimetres', () => {
    const text = writeSheet({ pattern: halfPattern(), record: [] });
    const [, width, height] = /width="(\d+)mm" height="(\d+)mm" viewBox="0 0 (?:\d+) (?:\d+)"/.exec(text)!;
    expect(text).toContain(`viewBox="0 0 ${width} ${height}"`);
    const places = [...text.matchAll(/translate\(([\d.]+),([\d.]+)\)/g)].map(([, x, y]) => [Number(x), Number(y)]);
    expect(new Set(places.map(([, y]) => y)).size).toBe(1);
    expect(places.every(([x], i) => i === 0 || x! > places[i - 1]![0]! + 50)).toBe(true);
  });

  it('can be drawn by another program, ink within its page only', () => {
    const { width, height, pixels } = new Resvg(writeSheet({ pattern: halfPattern(), record: [] }), {
      fitTo: { mode: 'width', value: 600 },
      font: { loadSystemFonts: false },
      background: 'white',
    }).render();
    const isInk = (x: number, y: number): boolean => pixels[4 * (y * width + x)]! < 200;
    let ink = 0;
    for (let y = 0; y < height; y += 1) for (let x = 0; x < width; x += 1) if (isInk(x, y)) ink += 1;
    expect(ink).toBeGreaterThan(1000);
    for (let x = 0; x < width; x += 1) expect(isInk(x, 2) || isInk(x, height - 3)).toBe(false);
  });

  it('carries each notch on to the cutting line, in the same place every time, and reads the notch alone', () => {
    const { pattern } = addAllowance(boxPattern(2), { all: 15, byEdge: { cb: 0 } }, { default: 'mitre' });
    const sheet = { pattern, record: [] };
    const text = writeSheet(sheet);
    const marks = [...text.matchAll(/data-kind="label" stroke="#1a1a1a" .* d="M (.*) L (.*)"/g)];
    // The second panel's notch is on an edge without allowance: there is no way to go.
    expect(marks.map(([, from, to]) => [from, to])).toEqual([['95,60', '80,60']]);
    const read = sheetOf(text);
    expect(read.pattern.panels.map(({ notches }) => notches)).toEqual(pattern.panels.map(({ notches }) => notches));
    expect(writeSheet(read)).toBe(text);
    expect(hashGeometry(read.pattern)).toBe(hashGeometry(pattern));
  });

  it('tells lines apart by weight and dash', () => {
    const pattern = boxPattern(1);
    const [panel] = pattern.panels as [Panel];
    const outline = { segments: panel.edges.flatMap(({ path }) => path.segments) };
    const styleOf = (one: Panel, kind: string): string => {
      const text = writeSheet({ pattern: { ...pattern, panels: [one] }, record: [] });
      return new RegExp(`data-kind="${kind}".*?stroke-width="([\\d.]+)" stroke-dasharray="([^"]+)"`)
        .exec(text)!
        .slice(1)
        .join(' / ');
    };
    const withCutting = { ...panel, cutting: outline, bones: [{ segments: [line(point(40, -100), point(40, 100))] }] };
    const styles = [
      styleOf(panel, 'panel'),
      styleOf({ ...panel, line: 'cutting' }, 'panel'),
      styleOf(withCutting, 'panel'),
      ...['level', 'notch', 'grain', 'bone'].map((kind) => styleOf(withCutting, kind)),
    ];
    expect(new Set(styles).size).toBe(styles.length);
    expect(styleOf(withCutting, 'cutting')).toBe(styleOf({ ...panel, line: 'cutting' }, 'panel'));
  });
});

const numbered = (command: string, step: number, panels?: readonly string[]): Change => ({
  command,
  version: '0.1.0',
  step,
  ...(panels === undefined ? {} : { panels }),
  before: `before ${step}`,
  after: command,
  girth_mm: {},
});

describe('the record in a sheet', () => {
  it('is one JSON object a line, and cannot break out of the XML whatever was typed', () => {
    const command = 'take-in --seam "</metadata><script>]]>&amp;\u0000\u0085\u2028\ud800\ufffe';
    const change = { command, version: '0.1.0', before: null, after: 'a', girth_mm: {} };
    const text = writeSheet({ pattern: boxPattern(1), record: [change, change] });
    expect(text.split('\n').filter((one) => one.startsWith('{"command"')).length).toBe(2);
    expect(sheetOf(text).record).toEqual([change, change]);
  });

  it('holds each change under the first panel that it changed, and is read in the order of their numbers', () => {
    const record = [
      numbered('label', 1),
      numbered('b', 2, ['panel-2', 'panel-3']),
      numbered('a', 3, ['panel-1']),
      numbered('all', 4),
      numbered('gone', 5, ['panel-9']),
      numbered('b again', 6, ['panel-9', 'panel-2']),
    ];
    const text = writeSheet({ pattern: boxPattern(3), record });
    const lines = text.split('\n').filter((one) => one.startsWith('{'));
    expect(
      lines.map((one) => JSON.parse(one) as Record<string, unknown>).map((one) => one['panel'] ?? one['command']),
    ).toEqual(['label', 'all', 'gone', 'panel-1', 'a', 'panel-2', 'b', 'b again', 'panel-3']);
    expect(sheetOf(text).record).toEqual(record);
    for (const { text: part } of panelSheets({ pattern: boxPattern(3), record })) {
      expect(part.split('\n').filter((one) => one.startsWith('{'))).toEqual(lines);
    }
  });

  it('may hold two changes of one number, which stay as they stand', () => {
    const record = [numbered('label', 1), numbered('b', 2, ['panel-2']), numbered('a', 2, ['panel-1'])];
    const once = sheetOf(writeSheet({ pattern: boxPattern(2), record }));
    expect(once.record.map(({ command }) => command)).toEqual(['label', 'a', 'b']);
    expect(sheetOf(writeSheet(once)).record).toEqual(once.record);
  });

  it.each([
    ['"step":0', '"step":1,'],
    ['"step":1.5,', '"step":1,'],
    ['"step":"1",', '"step":1,'],
    ['"panels":"panel-1",', '"panels":["panel-1"],'],
    ['"panels":[1],', '"panels":["panel-1"],'],
  ])('is refused with %s', (bad, good) => {
    const text = writeSheet({ pattern: boxPattern(2), record: [numbered('a', 1, ['panel-1'])] });
    expect(text).toContain(good);
    expect(() => sheetOf(text.replace(good, bad))).toThrow('line 2 of the record of changes cannot be read');
  });
});
