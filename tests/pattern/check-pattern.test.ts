import { describe, expect, it } from 'vitest';
import { offsetOutline } from '../../src/geometry/offset-outline.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import { transformPath, translatePath } from '../../src/geometry/transform-path.ts';
import { scaling } from '../../src/geometry/matrix.ts';
import { checkPattern } from '../../src/pattern/check-pattern.ts';
import type { Edge, Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { block, notched } from '../support/blocks.ts';
import { allShapes, curvedPanel, halfPattern, patternOf, run, straightPanel } from '../support/shaped-panels.ts';

/** The half pattern with one panel changed. */
const change = (name: string, how: (panel: Panel) => Panel): Pattern => {
  const pattern = halfPattern();
  return { ...pattern, panels: pattern.panels.map((panel) => (panel.name === name ? how(panel) : panel)) };
};

const redrawn = (panel: Panel, name: string, how: (edge: Edge) => Edge): Panel => ({
  ...panel,
  edges: panel.edges.map((edge) => (edge.name === name ? how(edge) : edge)),
});

/** The panel with an allowance of this width all round, and its cutting line. */
const allowed = (panel: Panel, width: number): Panel => {
  const runs = panel.edges.map(({ path }) => ({ path, distance: width }));
  const cutting = { segments: offsetOutline(runs).flatMap(({ segments }) => segments) };
  return { ...panel, cutting, edges: panel.edges.map(({ name, path }) => ({ name, path, allowance: width })) };
};

const kinds = (pattern: Pattern): string[] => checkPattern(pattern).map(({ kind }) => kind);

const sized = (factor: number): Pattern => {
  const panel = straightPanel();
  return patternOf({
    ...panel,
    edges: panel.edges.map(({ name, path }) => ({ name, path: transformPath(path, scaling(factor)) })),
    levels: panel.levels.map(({ name, y, fromX, toX }) => ({
      name,
      y: y * factor,
      fromX: fromX * factor,
      toX: toX * factor,
    })),
  });
};

const without = (name: string): Pattern =>
  change('side-back', (panel) => ({ ...panel, levels: panel.levels.filter((level) => level.name !== name) }));

const withNotch = (edge: string, x: number): Pattern =>
  change('front', (panel) => ({ ...panel, notches: [{ edge, at: { x, y: 0 }, inner: { x: x - 6, y: 0 } }] }));

describe('a sound pattern', () => {
  it('gives no findings, with allowance or without', () => {
    expect(checkPattern(halfPattern())).toEqual([]);
    const pattern = halfPattern();
    expect(checkPattern({ ...pattern, panels: pattern.panels.map((panel) => allowed(panel, 15)) })).toEqual([]);
  });

  it.each(allShapes)('gives none as a single panel', (shape) => {
    expect(checkPattern(patternOf(shape()))).toEqual([]);
  });
});

describe('every finding', () => {
  it('has a place, a message and a cure', () => {
    const worst: Pattern = patternOf(
      { ...curvedPanel('front', ['cf', 'side']), levels: [] },
      redrawn(straightPanel('front', ['side', 'cb']), 'cb', (edge) => ({
        ...edge,
        path: translatePath(edge.path, { dx: 3, dy: 0 }),
      })),
      allowed(straightPanel('back', ['side', 'cb']), 60),
    );
    const findings = checkPattern(worst);
    expect(findings.length).toBeGreaterThan(4);
    for (const finding of findings) {
      expect(finding.where).not.toBe('');
      expect(finding.message).not.toBe('');
      expect(finding.cure).toBeTruthy();
    }
  });
});

describe('an outline', () => {
  it('that is open is told with both edges and the gap', () => {
    const open = change('front', (panel) =>
      redrawn(panel, 'top', (edge) => ({ ...edge, path: translatePath(edge.path, { dx: 0, dy: 3 }) })),
    );
    const found = checkPattern(open).filter(({ kind }) => kind === 'outline-open');
    expect(found.map(({ where }) => where)).toEqual([
      'panel front, edges top and front-side',
      'panel front, edges cf and top',
    ]);
    expect(found[0]!.message).toContain('3.00 mm');
  });

  it('that crosses itself is told with its edges and the height', () => {
    const crossed = change('front', (panel) =>
      redrawn(panel, 'front-side', (edge) => ({
        name: edge.name,
        path: { segments: run([104, -190], [-60, 0], [112, 175]) },
      })),
    );
    const found = checkPattern(crossed).filter(({ kind }) => kind === 'outline-crosses-itself');
    expect(found).toHaveLength(2);
    expect(found.map(({ where }) => where)).toEqual(Array(2).fill('panel front, edges front-side and cf'));
    expect(found[0]!.message).toMatch(/mm above the waist$/);
    expect(found[1]!.message).toMatch(/mm below the waist$/);
  });

  it('that runs anticlockwise is told once', () => {
    const turned = patternOf({
      ...straightPanel(),
      edges: straightPanel()
        .edges.toReversed()
        .map(({ name, path }) => ({ name, path: reversePath(path) })),
    });
    expect(kinds(turned)).toContain('outline-anticlockwise');
  });

  it('without edges is told, and so is a sheet without panels', () => {
    expect(kinds(patternOf({ ...straightPanel(), edges: [], levels: [] }))).toContain('outline-missing');
    expect(kinds(patternOf())).toEqual(['no-panels']);
  });

  it('of an unbelievable size raises a doubt about the scale', () => {
    expect(kinds(sized(0.05))).toContain('scale-doubtful');
    expect(kinds(sized(0.06))).not.toContain('scale-doubtful');
    expect(kinds(sized(6.5))).not.toContain('scale-doubtful');
    expect(kinds(sized(6.7))).toEqual(['scale-doubtful']);
  });
});

describe('a level', () => {
  it('that one panel lacks is told, and the waist as an error', () => {
    expect(checkPattern(without('bust'))).toEqual([
      expect.objectContaining({ kind: 'level-missing', weight: 'warning', where: 'panel side-back, level bust' }),
    ]);
    expect(checkPattern(without('waist'))).toEqual([
      expect.objectContaining({ kind: 'level-missing', weight: 'error', where: 'panel side-back, level waist' }),
    ]);
  });

  it('that lies in another order than on other panels is told', () => {
    const swapped = change('side-back', (panel) => ({
      ...panel,
      levels: panel.levels.map(({ name, y, fromX, toX }) => ({
        name: name === 'bust' ? 'underbust' : name === 'underbust' ? 'bust' : name,
        y,
        fromX,
        toX,
      })),
    }));
    expect(kinds(swapped)).toEqual(['levels-out-of-order']);
  });

  it('that ends off the edge, or outside the seams, is told', () => {
    const short = change('front', (panel) => ({
      ...panel,
      levels: panel.levels.map((level) => (level.name === 'bust' ? { ...level, toX: level.toX - 4 } : level)),
    }));
    expect(kinds(short)).toEqual(['level-off-edge']);
    const outside = change('front', (panel) => ({
      ...panel,
      levels: panel.levels.map((level) => (level.name === 'hip' ? { ...level, y: 400 } : level)),
    }));
    expect(kinds(outside)).toEqual(['level-outside']);
  });

  it('on which the panel is too narrow to sew is told', () => {
    const narrow = patternOf({
      ...straightPanel(),
      edges: straightPanel().edges.map((edge) =>
        edge.name === 'cb' ? { name: 'cb', path: { segments: run([100, -200], [19, 0], [105, 180]) } } : edge,
      ),
      levels: [{ name: 'waist', y: 0, fromX: 10, toX: 19 }],
    });
    const found = checkPattern(narrow);
    expect(found.map(({ kind }) => kind)).toEqual(['panel-narrow']);
    expect(found[0]!.message).toContain('9.00 mm');
  });
});

describe('a notch', () => {
  it('on its edge is left alone', () => {
    expect(kinds(withNotch('front-side', 76.04))).toEqual([]);
  });

  it('off its edge is told, with how far', () => {
    const found = checkPattern(withNotch('front-side', 79));
    expect(found.map(({ kind }) => kind)).toEqual(['notch-off-edge']);
    expect(found[0]!.message).toMatch(/^the notch at the waist lies (2\.9\d|3\.00) mm off the edge$/);
  });

  it('of an edge that is not there is told, with the nearest name', () => {
    const found = checkPattern(withNotch('front-sid', 76));
    expect(found.map(({ kind }) => kind)).toEqual(['notch-without-edge']);
    expect(found[0]!.cure).toContain('front-side');
  });
});

/** Notches on both edges of a seam, the upper one of the back at this height. */
const pair = (up: number): Pattern =>
  patternOf(
    notched(block('front', ['cf', 'side'], [200, 215], 150), 'side', 100, -80),
    notched(block('back', ['side', 'cb'], [215, 200], 150), 'side', up),
  );

describe('a seam', () => {
  it('whose two edges differ in length is told', () => {
    const pattern = patternOf(straightPanel('front', ['cf', 'side']), curvedPanel('back', ['side', 'cb']));
    const found = checkPattern(pattern);
    expect(found.map(({ kind }) => kind)).toEqual(['mates-differ']);
    expect(found[0]!.where).toBe('seam side, below the waist');
  });

  it('whose notches do not meet is told, by how far; a single notch and a bent top are none of its business', () => {
    expect(checkPattern(pair(101.4))).toEqual([]);
    expect(checkPattern(pair(103))).toMatchObject([
      {
        weight: 'warning',
        kind: 'notches-apart',
        where: 'seam side',
        message: 'the notch 100.00 mm above the waist on front lies 3.00 mm below its mate on back',
      },
    ]);
  });

  it('is not compared on cutting lines, which is said', () => {
    const pattern = patternOf(straightPanel('front', ['cf', 'side']), curvedPanel('back', ['side', 'cb']));
    const cutting: Pattern = { ...pattern, panels: pattern.panels.map((panel) => ({ ...panel, line: 'cutting' })) };
    expect(kinds(cutting)).toEqual(['cutting-lines']);
    const mixed: Pattern = { ...pattern, panels: [{ ...pattern.panels[0]!, line: 'cutting' }, pattern.panels[1]!] };
    expect(kinds(mixed)).toEqual(['lines-mixed']);
  });

  it('of three edges, or of two front edges, is told', () => {
    expect(
      kinds(
        patternOf(
          curvedPanel('front', ['cf', 'side']),
          curvedPanel('middle', ['side', 'back']),
          curvedPanel('back', ['side', 'cb']),
        ),
      ),
    ).toContain('seam-of-many');
    expect(kinds(patternOf(curvedPanel('front', ['side', 'cf']), curvedPanel('back', ['side', 'cb'])))).toContain(
      'seam-sides',
    );
  });
});

describe('names', () => {
  it('that come twice are told, for panels, edges and levels', () => {
    const panel = straightPanel();
    expect(kinds(patternOf(panel, { ...straightPanel(), edges: curvedPanel('x', ['a', 'b']).edges }))).toContain(
      'name-twice',
    );
    expect(kinds(patternOf(straightPanel('front', ['side', 'side'])))).toContain('name-twice');
    expect(kinds(patternOf({ ...panel, levels: [...panel.levels, panel.levels.at(-1)!] }))).toContain('name-twice');
  });

  it('that are missing are told: a panel never labelled', () => {
    const panel = straightPanel();
    const edges = panel.edges.map(({ path }, i) => ({ name: `edge-${i + 1}`, path }));
    expect(kinds(patternOf({ ...panel, edges, levels: [] }))).toEqual(['panel-unlabelled']);
  });
});

describe('an allowance', () => {
  it('whose cutting line belongs to another stitching line is told', () => {
    const stale = change('front', (panel) => ({
      ...panel,
      cutting: allowed(panel, 15).cutting!,
      edges: allowed(panel, 12).edges,
    }));
    expect(new Set(kinds(stale))).toEqual(new Set(['cutting-line-stale', 'allowances-differ']));
  });

  it('that is missing on one edge, wide beyond belief, or without a cutting line is told', () => {
    expect(
      kinds(patternOf(redrawn(allowed(straightPanel(), 15), 'top', ({ name, path }) => ({ name, path })))),
    ).toEqual(['allowance-missing']);
    expect(new Set(kinds(patternOf(allowed(straightPanel(), 60))))).toEqual(new Set(['allowance-doubtful']));
    const { cutting: _cutting, ...bare } = allowed(straightPanel(), 15);
    expect(kinds(patternOf(bare))).toEqual(['cutting-line-missing']);
  });

  it('whose cutting line is open or crosses itself is told', () => {
    const panel = allowed(straightPanel(), 15);
    const { segments } = panel.cutting!;
    expect(kinds(patternOf({ ...panel, cutting: { segments: segments.slice(1) } }))).toEqual(['cutting-line-open']);
    const eight = run([0, 0], [100, 100], [100, 0], [0, 100], [0, 0]);
    expect(kinds(patternOf({ ...panel, cutting: { segments: eight } }))).toEqual(['cutting-line-crosses-itself']);
  });
});
