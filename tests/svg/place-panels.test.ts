import { describe, expect, it } from 'vitest';
import { translation } from '../../src/geometry/matrix.ts';
import { transformPath } from '../../src/geometry/transform-path.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import { placePanels } from '../../src/svg/place-panels.ts';
import type { Placing } from '../../src/svg/sheet.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { sheetOf } from './drawn-svg.ts';

const pattern = boxPattern(3);
const laid = placePanels(pattern.panels);

/** The boxes are 80 wide and reach 180 above and below the waist. */
const placing = (xs: readonly number[], ys: readonly number[], width: number, height = 420): Placing => ({
  width,
  height,
  panels: new Map(xs.map((x, at) => [`panel-${at + 1}`, { x, y: ys[at]! }])),
});

const WAISTS = [210, 210, 210];

const places = (written: string): string[] => written.match(/translate\([^)]*\)/g)!;

describe('panels on a sheet', () => {
  it('stay where they lay, wherever that was, while they have room', () => {
    const moved = placing([40, 130.5, 300], [211, 211, 211], 400);
    expect(placePanels(pattern.panels, moved)).toEqual(moved);
  });

  it.each<[string, Placing, boolean]>([
    ['10 mm between two', placing([20, 110, 200], WAISTS, 300), true],
    ['less than 10 mm between two', placing([20, 109.99, 200], WAISTS, 300), false],
    ['one where another one was', placing([110, 20, 200], WAISTS, 300), false],
    ['5 mm to the left', placing([5, 110, 200], WAISTS, 300), true],
    ['less than 5 mm to the left', placing([4.99, 110, 200], WAISTS, 300), false],
    ['5 mm to the right', placing([20, 110, 200], WAISTS, 285), true],
    ['less than 5 mm to the right', placing([20, 110, 200], WAISTS, 284.99), false],
    ['5 mm to the top and the bottom', placing([20, 110, 200], [185, 185, 185], 300, 370), true],
    ['less than 5 mm to the top', placing([20, 110, 200], [184.99, 184.99, 184.99], 300, 370), false],
    ['less than 5 mm to the bottom', placing([20, 110, 200], [185, 185, 185], 300, 369.99), false],
    ['waists that are not on one line', placing([20, 110, 200], [210, 210.01, 210], 300), false],
    ['a panel that was not there', placing([20, 110], WAISTS, 300), false],
    ['a panel too many', placing([20, 110, 200, 300], [...WAISTS, 210], 400), false],
  ])('%s', (_, before, stays) => {
    expect(placePanels(pattern.panels, before)).toEqual(stays ? before : laid);
  });

  it('that were moved about in a drawing program stay there, groups and all', () => {
    const text = writeSheet({ pattern, record: [] });
    const [first] = [...laid.panels.values()];
    const moved = text
      .replace(`translate(${first!.x},${first!.y})`, `translate(${first!.x - 10},${first!.y - 4})`)
      .replace(/(?<=^<svg.*>\n)([^]*)(?=<\/svg>)/m, '<g transform="translate(0,4)">\n$1</g>\n')
      .replaceAll(/(?<=<g id="panel-[23]".*translate\(\d+,)(\d+)/g, (y) => String(Number(y) - 4));
    const { placing: read, pattern: same } = sheetOf(moved);
    expect(read?.panels.get('panel-1')).toEqual({ x: first!.x - 10, y: first!.y });
    expect(read?.panels.get('panel-2')).toEqual(laid.panels.get('panel-2'));
    expect(hashGeometry(same)).toBe(hashGeometry(pattern));
    expect(writeSheet(sheetOf(moved))).toBe(text.replace(`translate(${first!.x},`, `translate(${first!.x - 10},`));
  });

  it('are laid out anew where the sheet does not begin at its corner', () => {
    const text = writeSheet({ pattern, record: [] });
    expect(sheetOf(text.replace('viewBox="0 0 ', 'viewBox="-5 0 ')).placing).toBeUndefined();
  });

  it('make way for one that grew too much, not for one that grew a little', () => {
    const text = writeSheet({ pattern, record: [] });
    const grown = (by: number): string => {
      const sheet = sheetOf(text);
      const wider = (panel: Panel): Panel => ({
        ...panel,
        bones: [transformPath(panel.edges[1]!.path, translation(by, 0))],
      });
      const panels = sheet.pattern.panels.map((panel, at) => (at === 0 ? wider(panel) : panel));
      return writeSheet({ ...sheet, pattern: { ...sheet.pattern, panels } });
    };
    expect(places(grown(20))).toEqual(places(text));
    expect(places(grown(21))[1]).not.toBe(places(text)[1]);
  });
});
