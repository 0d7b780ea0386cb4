import { describe, expect, it } from 'vitest';
import { setGusset } from '../../src/alterations/gusset.ts';
import { redrawEdge } from '../../src/alterations/redraw-edge.ts';
import { walk } from '../../src/measure/walk.ts';
import { degreesOf } from '../../src/geometry/degrees.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { block, notched, type Heights } from '../support/blocks.ts';
import { caught } from '../support/caught.ts';
import { intoSeam } from '../support/gussets.ts';
import { allShapes, halfPattern, mirrored, panelOf, patternOf, run } from '../support/shaped-panels.ts';

const front = (above: Heights = 200, below: Heights = 150): Panel => block('front', ['cf', 'side'], above, below);
const back = (above: Heights = 200, below: Heights = 150): Panel => block('back', ['side', 'cb'], above, below);

const all = (pattern: Pattern, within?: number) => {
  const { lengths, notches, bends, notes } = walk(pattern, [], within);
  return [...lengths, ...notches, ...bends, ...notes];
};

/** A panel wholly above the waist. */
const cup = (name: string, seams: readonly [string, string], height: number): Panel =>
  panelOf({
    name,
    seams,
    top: run([0, -100 - height], [80, -100 - height]),
    back: run([80, -100 - height], [80, -100]),
    bottom: run([80, -100], [0, -100]),
    front: run([0, -100], [0, -100 - height]),
    levels: {},
  });

describe('a gusset in a seam', () => {
  const { pattern: set } = setGusset(patternOf(front(), back()), intoSeam(40));

  it('is walked with the others, and fits its opening', () => {
    expect(all(set)).toEqual([]);
  });

  it('that was left behind by its opening is something to true', () => {
    const { pattern } = redrawEdge(set, { edge: 'bottom', at: [{ seam: 'side', amount: -8 }] });
    expect(walk(pattern, []).lengths.map(({ kind, message }) => `${kind}: ${message}`)).toEqual([
      'gusset-differs: its front side is 8.00 mm shorter than its opening on front',
      'gusset-differs: its back side is 8.00 mm shorter than its opening on back',
    ]);
    expect(walk(pattern, ['side']).lengths).toEqual([]);
  });
});

describe('walking a seam', () => {
  it('measures both edges from the waist up and from the waist down', () => {
    const { walks, alone } = walk(patternOf(front(203, 148), back()), []);
    expect(walks).toHaveLength(1);
    expect(walks[0]!.edges.map(({ above, below, whole }) => [above, below, whole])).toEqual([
      [203, 148, 351],
      [200, 150, 350],
    ]);
    expect(alone).toEqual(['cf', 'cb']);
  });

  it('finds what differs by more than the tolerance, 1.6 mm where none is given', () => {
    expect(all(patternOf(front(201.59), back()))).toEqual([]);
    expect(all(patternOf(front(201.61), back()))).toMatchObject([{ kind: 'mates-differ' }]);
    expect(all(patternOf(front(200.2), back()), 0.1)).toMatchObject([
      { message: 'the edge on front is 0.20 mm longer than the edge on back' },
    ]);
    expect(walk(patternOf(front(203, 147), back()), []).lengths.map(({ where }) => where)).toEqual([
      'seam side, above the waist',
      'seam side, below the waist',
    ]);
  });

  it('finds nothing in any shape beside its own mirror image, but for bends in its top and bottom', () => {
    for (const shape of allShapes) {
      const panel = { ...shape(), name: 'front' };
      const pair = patternOf(panel, { ...mirrored(panel), name: 'back' });
      const seams = pair.panels.map(({ edges }, at) => (at === 0 ? edges[1]! : edges[3]!).name);
      const named: Pattern = {
        ...pair,
        panels: pair.panels.map((each, at) => ({
          ...each,
          edges: each.edges.map((edge) => (edge.name === seams[at] ? { ...edge, name: 'middle' } : edge)),
        })),
      };
      const { walks, lengths } = walk(named, ['middle']);
      expect(walks, `beside its image: ${panel.name}`).toHaveLength(1);
      expect(lengths, `beside its image: ${panel.name}`).toEqual([]);
    }
    expect(walk(halfPattern(), []).lengths).toEqual([]);
  });

  it('compares the whole of a seam that does not cross the waist, from its end nearest to it', () => {
    const waist = { name: 'waist', y: 0, fromX: 0, toX: 80 };
    const cups = [cup('front', ['cf', 'side'], 90), cup('back', ['side', 'cb'], 87)];
    const { walks, lengths } = walk(patternOf(...cups.map((panel) => ({ ...panel, levels: [waist] }))), []);
    expect(walks[0]!.from).toBe('bottom');
    expect(walks[0]!.edges[0].above).toBeUndefined();
    expect(lengths).toMatchObject([
      { where: 'seam side', message: 'the edge on front is 3.00 mm longer than the edge on back' },
    ]);
    expect(walk(patternOf(...cups), []).walks[0]!.from).toBe('top');
  });
});

describe('notches', () => {
  it('meet at the same distance from the waist, within the tolerance', () => {
    const pair = patternOf(notched(front(), 'side', 100, -60), notched(back(), 'side', 101.5, -60));
    expect(all(pair)).toEqual([]);
  });

  it('that do not meet are told, with the place and by how much', () => {
    const pair = patternOf(notched(front(), 'side', 100, -60), notched(back(), 'side', 104, -60));
    expect(all(pair)).toMatchObject([
      {
        kind: 'notches-apart',
        where: 'seam side',
        message: 'the notch 100.00 mm above the waist on front lies 4.00 mm below its mate on back',
      },
    ]);
  });

  it('pair with the nearest that crosses no other pair, and are single beyond an inch', () => {
    const doubles = patternOf(notched(front(), 'side', 50, 56), notched(back(), 'side', 60, 54));
    expect(walk(doubles, []).walks[0]!.pairing).toEqual({
      pairs: [
        [0, 1],
        [1, 0],
      ],
      singles: [[], []],
    });
    const far = walk(patternOf(notched(front(), 'side', 50), notched(back(), 'side', 80)), []);
    expect(far.notches).toEqual([]);
    expect(far.notes.map(({ weight, message }) => [weight, message])).toEqual([
      ['note', 'the notch 50.00 mm above the waist on front has no mate on back'],
      ['note', 'the notch 80.00 mm above the waist on back has no mate on front'],
    ]);
  });
});

/** Tops and bottoms that rise or fall by so much over 80 mm towards the seam, on both its sides. */
const bent = (top: number, bottom: number): Pattern =>
  patternOf(
    block('front', ['cf', 'side'], [200, 200 + top], [150, 150 + bottom]),
    block('back', ['side', 'cb'], [200 + top, 200], [150 + bottom, 150]),
  );

describe('top and bottom across a seam', () => {
  /** Tops or bottoms that rise or fall by 10 mm over 80 mm towards the seam, on both its sides. */
  const slope = 2 * degreesOf(Math.atan(10 / 80));

  it('peak where they jut out of the garment at the seam, with inside angles of less than 180 degrees', () => {
    const { walks, bends } = walk(bent(10, 10), []);
    expect(degreesOf(walks[0]!.excess.top)).toBeCloseTo(-slope, 9);
    expect(degreesOf(walks[0]!.excess.bottom)).toBeCloseTo(-slope, 9);
    expect(bends.map(({ message }) => message)).toEqual([
      'the top edge makes a peak of 14.3 degrees there',
      'the bottom edge makes a peak of 14.3 degrees there',
    ]);
  });

  it('dip where they cut into the garment, with more', () => {
    const { walks, bends } = walk(bent(-10, -10), []);
    expect(degreesOf(walks[0]!.excess.top)).toBeCloseTo(slope, 9);
    expect(bends.map(({ message }) => message)).toEqual([
      'the top edge makes a dip of 14.3 degrees there',
      'the bottom edge makes a dip of 14.3 degrees there',
    ]);
  });

  it('are smooth within 2 degrees, and more than 30 off a point drawn on purpose, which is only noted', () => {
    expect(all(bent(1.3, -1.3))).toEqual([]);
    expect(all(bent(1.5, 0))).toMatchObject([{ weight: 'warning', kind: 'bend-across-seam' }]);
    const { bends, notes } = walk(bent(30, 0), []);
    expect(bends).toEqual([]);
    expect(notes).toMatchObject([{ kind: 'point-across-seam', weight: 'note' }]);
  });
});

it('refuses panels that carry allowance, and seams that are not there', () => {
  const carrying = { ...front(), line: 'cutting' as const };
  expect(caught(() => walk(patternOf(carrying, back()), []))).toMatchObject({ code: 'input' });
  expect(caught(() => walk(patternOf(front(), back()), ['sid']))).toMatchObject({
    code: 'usage',
    message: 'no seam is called sid',
    hint: 'did you mean side?',
  });
});

it('walks left and right by themselves, though their seams have one name', () => {
  const left = patternOf(front(203), back());
  const sides = left.panels.flatMap((panel) =>
    (['left', 'right'] as const).map((side) => ({ ...panel, name: `${panel.name}-${side}`, side })),
  );
  const { walks, lengths } = walk({ ...left, pieces: 'single', panels: sides }, ['side']);
  expect(walks.map(({ edges }) => edges.map(({ panel }) => panel.name))).toEqual([
    ['front-left', 'back-left'],
    ['front-right', 'back-right'],
  ]);
  expect(lengths.map(({ where }) => where)).toEqual([
    'seam side, left, above the waist',
    'seam side, right, above the waist',
  ]);
});

/** The panel with its side seam open from 30 mm below the waist. */
const opened = (panel: Panel, x: number): Panel => ({
  ...panel,
  slits: [{ gusset: 'godet', edge: 'side', at: { x, y: 30 }, to: { x, y: 30 } }],
});

it('walks a seam that is open for a gusset only down to its point', () => {
  const pair = patternOf(
    opened(notched(front(200, [150, 160]), 'side', 60, -60), 80),
    opened(notched(back(200, 140), 'side', 60, -64), 0),
  );
  const { walks, ...found } = walk(pair, []);
  expect([...found.lengths, ...found.notches, ...found.bends, ...found.notes]).toEqual([]);
  expect(walks[0]).toMatchObject({ isOpen: true, corners: ['top'], pairing: { pairs: [[0, 0]], singles: [[], []] } });
});
