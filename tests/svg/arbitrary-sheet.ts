import * as fc from 'fast-check';
import { signedArea } from '../../src/geometry/area.ts';
import { point, type Point } from '../../src/geometry/point.ts';
import { cubic, line, type Segment } from '../../src/geometry/segment.ts';
import type { Edge, Panel } from '../../src/pattern/panel.ts';
import type { Change } from '../../src/record/change.ts';
import type { Sheet } from '../../src/svg/sheet.ts';

const decimals3 = fc.integer({ min: -40_000, max: 40_000 }).map((n) => n / 1000 + 0);
const nearby: fc.Arbitrary<Point> = fc.tuple(decimals3, decimals3).map(([x, y]) => point(x, y));

/** Names in any script, with the characters that XML must escape. */
const anyName: fc.Arbitrary<string> = fc
  .string({ unit: fc.constantFrom(...'abz-_ .<>&"\'Łéя日\u0301\t\n'), minLength: 1, maxLength: 12 })
  .map((text) => `n${text}`);

const moved = (p: Point, by: Point): Point =>
  point(Math.round((p.x + by.x) * 1000) / 1000 + 0, Math.round((p.y + by.y) * 1000) / 1000 + 0);

/** A curve or two from one corner to the next, all numbers with 3 decimals. */
const between = (from: Point, to: Point): fc.Arbitrary<Segment[]> =>
  fc.tuple(fc.boolean(), nearby, nearby, nearby).map(([straight, a, b, c]) => {
    if (straight) return [line(from, to)];
    const middle = moved(point((from.x + to.x) / 2, (from.y + to.y) / 2), c);
    return [cubic(from, moved(from, a), moved(middle, b), middle), line(middle, to)];
  });

const CORNERS = [point(0, 0), point(300, -10), point(320, 400), point(-20, 410)];

const anyPanel = (name: string): fc.Arbitrary<Panel> =>
  fc
    .record({
      line: fc.constantFrom('cutting' as const, 'stitching' as const),
      runs: fc.tuple(...CORNERS.map((corner, i) => between(corner, CORNERS[(i + 1) % 4]!))),
      edgeNames: fc.uniqueArray(anyName, { minLength: 4, maxLength: 4 }),
      allowances: fc.array(
        fc.option(
          fc.integer({ min: 0, max: 40_000 }).map((n) => n / 1000),
          { nil: undefined },
        ),
        {
          minLength: 4,
          maxLength: 4,
        },
      ),
      levelNames: fc.uniqueArray(anyName, { maxLength: 3 }),
      notch: fc.option(fc.tuple(nearby, nearby), { nil: undefined }),
      grain: fc.option(fc.tuple(nearby, nearby), { nil: undefined }),
      bone: fc.option(between(CORNERS[0]!, CORNERS[2]!), { nil: undefined }),
      hasCutting: fc.boolean(),
    })
    .map(({ line: kind, runs, edgeNames, allowances, levelNames, notch, grain, bone, hasCutting }): Panel => {
      const edges = runs.map((segments, i) =>
        withoutText({ name: edgeNames[i]!, path: { segments }, allowance: allowances[i] } as Edge),
      );
      const panel: Panel = {
        name,
        line: kind,
        edges,
        levels: levelNames.map((level, i) => ({ name: level, y: 100 * i + 0.125, fromX: 1.5, toX: 290.001 })),
        notches: notch ? [{ edge: edgeNames[1]!, at: notch[0], inner: notch[1] }] : [],
        bones: bone ? [{ segments: bone }] : [],
      };
      const cutting = { segments: edges.flatMap(({ path }) => path.segments) };
      return Object.assign(panel, grain && { grain: { from: grain[0], to: grain[1] } }, hasCutting && { cutting });
    })
    .filter((panel) => signedArea({ segments: panel.edges.flatMap(({ path }) => path.segments) }) > 1);

/** The sheet without the places that its panels were read at. */
export const withoutPlacing = (sheet: Sheet): Omit<Sheet, 'placing'> =>
  Object.fromEntries(Object.entries(sheet).filter(([key]) => key !== 'placing')) as unknown as Sheet;

const oldChange = fc.record({
  command: fc.string({ unit: 'binary' }),
  version: fc.constant('0.1.0'),
  before: fc.option(fc.constant('ab12')),
  after: fc.constant('cd34'),
  girth_mm: fc.dictionary(anyName, fc.record({ before: fc.option(fc.constant(612.5)), after: fc.constant(600) })),
});

/** Changes in order, the first from before they were numbered, the others of any panels or of all. */
const anyRecord = (panels: readonly string[]): fc.Arbitrary<Change[]> => {
  const ofPanels = fc.subarray([...panels, 'panel that went'], { minLength: 1 });
  const step = fc.record({
    change: oldChange,
    by: fc.integer({ min: 1, max: 3 }),
    panels: fc.option(ofPanels, { nil: undefined }),
  });
  return fc.tuple(fc.array(oldChange, { maxLength: 2 }), fc.array(step, { maxLength: 6 })).map(([old, steps]) => {
    let at = old.length + 1;
    const numbered = steps.map(({ change, by, panels: names }, i): Change => {
      at += i === 0 ? 0 : by;
      return { ...change, step: at, ...(names === undefined ? {} : { panels: names }) };
    });
    return [...old, ...numbered];
  });
};

/** Any sheet whose numbers have 3 decimals at most. */
export const anySheet: fc.Arbitrary<Sheet> = fc
  .record({
    name: fc.oneof(anyName, fc.constant('')),
    pieces: fc.constantFrom('pairs' as const, 'single' as const),
    units: fc.constantFrom('mm' as const, 'in' as const),
    panelNames: fc.uniqueArray(anyName, { minLength: 1, maxLength: 3 }),
    art: fc.option(fc.constant('<text x="1">a\n b</text>\n<path d="M0 0"/>'), { nil: undefined }),
  })
  .chain(({ name, pieces, units, panelNames, art }) =>
    fc.tuple(anyRecord(panelNames), ...panelNames.map(anyPanel)).map(([record, ...panels]) => {
      const sheet: Sheet = { pattern: { name, pieces, units, panels }, record };
      return art === undefined ? sheet : Object.assign(sheet, { art });
    }),
  );

/** The sheet without the characters its edges were read from. */
export const withoutTexts = (sheet: Sheet): Sheet => ({
  ...sheet,
  pattern: {
    ...sheet.pattern,
    panels: sheet.pattern.panels.map((panel) => Object.assign({}, panel, { edges: panel.edges.map(withoutText) })),
  },
});

const withoutText = ({ name, path, allowance }: Edge): Edge =>
  allowance === undefined ? { name, path } : { name, path, allowance };
