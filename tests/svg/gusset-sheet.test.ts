import { describe, expect, it } from 'vitest';
import { addAllowance } from '../../src/alterations/add-allowance.ts';
import { setGusset } from '../../src/alterations/gusset.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { checkPattern } from '../../src/pattern/check-pattern.ts';
import { mirrorPanel } from '../../src/pattern/mirror-panel.ts';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import { joinSheets } from '../../src/svg/join-sheets.ts';
import { panelSheets } from '../../src/svg/panel-sheets.ts';
import { placePanels } from '../../src/svg/place-panels.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import type { Sheet } from '../../src/svg/sheet.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { caught } from '../support/caught.ts';
import { gussetsOf, intoSeam, intoSlit } from '../support/gussets.ts';
import { at as level } from '../support/moves.ts';
import { halfPattern } from '../support/half-pattern.ts';

const FRONT = halfPattern().panels[0]!.name;

const withBoth = (pattern: Pattern = halfPattern(), panel = FRONT): Pattern =>
  setGusset(setGusset(pattern, intoSeam(60)).pattern, intoSlit(panel, 0.4, 30)).pattern;

const patterns: readonly (readonly [string, Pattern])[] = [
  ['pairs', withBoth()],
  ['left and right', withBoth(splitSides(halfPattern()).pattern, `${FRONT}-right`)],
  ['with allowance', addAllowance(withBoth(), { all: 12, byEdge: {} }, { default: 'folded' }).pattern],
];

const read = (text: string): Sheet => {
  const reading = readSvg(text, 'sheet.svg');
  if (reading.kind !== 'sheet') throw new Error('no sheet');
  return reading.sheet;
};

describe('a sheet with gussets', () => {
  it.each(patterns)('is read as it was written, and written the same again: %s', (_, pattern) => {
    const text = writeSheet({ pattern, record: [] });
    const sheet = read(text);
    expect(writeSheet(sheet)).toBe(text);
    expect(hashGeometry(sheet.pattern)).toBe(hashGeometry(pattern));
    expect(sheet.pattern.panels.map(({ slits }) => slits?.length)).toEqual(
      pattern.panels.map(({ slits }) => slits?.length),
    );
    expect(gussetsOf(sheet.pattern).map(({ name, side }) => [name, side])).toEqual(
      gussetsOf(pattern).map(({ name, side }) => [name, side]),
    );
    expect(checkPattern(sheet.pattern)).toEqual(checkPattern(pattern));
  });

  it.each(patterns)('is the same in pieces: %s', (_, pattern) => {
    const files = panelSheets({ pattern, record: [] }).map(({ name, text }) => ({ name, sheet: read(text) }));
    expect(hashGeometry(joinSheets(files).pattern)).toBe(hashGeometry(pattern));
  });

  it('shows openings and reinforcement points', () => {
    const text = writeSheet({ pattern: withBoth(), record: [] });
    expect(text.match(/data-kind="slit" data-gusset="side-gusset" data-edge="side"/g)).toHaveLength(2);
    expect(text.match(new RegExp(`data-kind="slit" data-gusset="${FRONT}-gusset" stroke`, 'g'))).toHaveLength(1);
    expect(text.match(/<circle data-kind="label"/g)).toHaveLength(3);
  });

  it('has each gusset at the height at which it is set in', () => {
    const pattern = withBoth();
    const placing = placePanels(pattern.panels);
    const heightOf = ({ name }: Panel): number => placing.panels.get(name)!.y;
    const heights = pattern.panels.flatMap((panel) =>
      panel.gusset ? [heightOf(panel)] : (panel.slits ?? []).map((slit) => heightOf(panel) + slit.at.y),
    );
    for (const height of heights) expect(height).toBeCloseTo(heights[0]!, 6);
  });

  it('names the levels of a gusset only where their names stand free of its outline and its grainline', () => {
    const pattern = setGusset(halfPattern(), {
      ...intoSeam(16),
      place: { kind: 'seam', seam: 'side', below: level('bust') },
    });
    const [gusset] = gussetsOf(pattern.pattern);
    const text = writeSheet({ pattern: { ...pattern.pattern, panels: [gusset!] }, record: [] });
    const sized = [...text.matchAll(/font-size="([\d.]+)" x="([-\d.]+)" y="([-\d.]+)">([^<]+)</g)];
    const names = sized.map(([, size, x, y, name]) => ({ name: name!, size: +size!, x: +x!, y: +y! }));
    const levels = names.filter(({ name }) => gusset!.levels.some((own) => own.name === name));
    // The gusset is a triangle about x = 0, whose half width grows in proportion to the way down from its apex.
    const [back] = gusset!.edges;
    const { x: halfBase, y: height } = back!.path.segments.at(-1)!.end;
    expect(levels.length).toBeGreaterThan(0);
    expect(levels.length).toBeLessThan(gusset!.levels.length);
    for (const { name, size, x, y } of levels) {
      const room = (halfBase * (y - size)) / height;
      const reach = Math.max(Math.abs(x), Math.abs(x + 0.65 * size * name.length));
      expect(reach, `${name} over the outline`).toBeLessThan(room);
      const crosses = y > gusset!.grain!.from.y && x < 0 && x + 0.65 * size * name.length > 0;
      expect(crosses, `${name} over the grainline`).toBe(false);
    }
  });

  it('is another version once an opening moves', () => {
    const pattern = withBoth();
    const moved: Pattern = {
      ...pattern,
      panels: pattern.panels.map((panel) => ({
        ...panel,
        ...(panel.slits
          ? { slits: panel.slits.map((slit) => ({ ...slit, at: { x: slit.at.x, y: slit.at.y + 1 } })) }
          : {}),
      })),
    };
    expect(hashGeometry(moved)).not.toBe(hashGeometry(pattern));
  });

  it('gives a gusset in the mirror its sides the other way round, twice as it was', () => {
    for (const gusset of gussetsOf(withBoth())) {
      expect(mirrorPanel(mirrorPanel(gusset))).toEqual(gusset);
      expect(mirrorPanel(gusset).edges.map(({ name }) => name)).toEqual([0, 2, 1].map((at) => gusset.edges[at]!.name));
    }
  });
});

const kinds = (own: Pattern): string[] =>
  checkPattern(own).flatMap(({ kind }) => (/gusset|opening/.test(kind) ? [kind] : []));

describe('a sheet that was changed by hand', () => {
  const text = writeSheet({ pattern: withBoth(), record: [] });
  const broken: readonly (readonly [string, string, string, string])[] = [
    ['an opening without a name', ' data-gusset="side-gusset" data-edge', ' data-edge', 'a slit has no data-gusset'],
    [
      'an opening on no edge',
      'data-gusset="side-gusset" data-edge="side"',
      'data-gusset="side-gusset" data-edge="sides"',
      'the opening for side-gusset is on an edge sides, which is not there',
    ],
    [
      'a slit that is no edge and not upright',
      ' data-gusset="side-gusset" data-edge="side"',
      ' data-gusset="side-gusset"',
      'a slit must run straight down',
    ],
    [
      'a waist that is no number',
      /data-gusset-waist="[^"]*"/.exec(text)![0],
      'data-gusset-waist="up"',
      'data-gusset-waist must be a number like -38.1',
    ],
    [
      'a gusset of four edges',
      'data-kind="panel" data-line="stitching"',
      'data-kind="panel" data-line="stitching" data-gusset-waist="0"',
      'a gusset has three edges, one of them bottom',
    ],
  ];
  it.each(broken)('is refused: %s', (_, from, to, message) => {
    expect(text).toContain(from);
    expect(caught(() => read(text.replace(from, to)))).toMatchObject({
      code: 'input',
      message: expect.stringContaining(message),
    });
  });

  it('without a gusset, or with one that nothing is open for, does not pass a check', () => {
    const pattern = withBoth();
    expect(kinds({ ...pattern, panels: pattern.panels.filter(({ name }) => name !== 'side-gusset') })).toEqual([
      'opening-without-gusset',
      'opening-without-gusset',
    ]);
    const shut = pattern.panels.map(({ slits: _slits, ...panel }) => panel);
    expect(kinds({ ...pattern, panels: shut })).toEqual(['gusset-without-opening', 'gusset-without-opening']);
    const moved = pattern.panels.map((panel) => ({
      ...panel,
      ...(panel.slits
        ? {
            slits: panel.slits.map((slit) => ({
              ...slit,
              at: { ...slit.at, x: slit.at.x + 1 },
              to: { ...slit.to, y: slit.to.y + 1 },
            })),
          }
        : {}),
    }));
    expect(kinds({ ...pattern, panels: moved })).toEqual(['opening-off-edge', 'opening-off-edge', 'opening-off-edge']);
  });
});
