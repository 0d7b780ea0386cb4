import { describe, expect, it } from 'vitest';
import { compose, rotation, scaling, translation, type Matrix } from '../../src/geometry/matrix.ts';
import { pathStart, type Path } from '../../src/geometry/path.ts';
import { reversePath } from '../../src/geometry/reverse-path.ts';
import { transformPath } from '../../src/geometry/transform-path.ts';
import { labelDrawing } from '../../src/labelling/label-drawing.ts';
import { labelFlags } from '../../src/commands/answers-file.ts';
import { labelAnswers } from '../../src/commands/label-options.ts';
import type { LabelAnswers } from '../../src/labelling/label-answers.ts';
import type { Drawing, Stroke } from '../../src/pattern/drawing.ts';
import { outlineOf } from '../../src/pattern/outline.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { expectSoundPanel } from '../support/invariants.ts';
import { allShapes } from '../support/shaped-panels.ts';
import { answers, box, closed, drawing, open, outline, stroke, type Place } from './drawn.ts';
import { caught } from '../support/caught.ts';

const one = (over: Partial<LabelAnswers> = {}): LabelAnswers =>
  answers({ panels: ['front'], seams: ['cf', 'cb'], ...over });

const labelOne = (drawn: Drawing, over: Partial<LabelAnswers> = {}) => {
  const { pattern, findings } = labelDrawing(drawn, one(over));
  expectSoundPanel(pattern.panels[0]!);
  return { panel: pattern.panels[0]!, kinds: findings.map((finding) => finding.kind), findings };
};

const WAIST = stroke(open([40, 150], [400, 150]), 'waist');

/** A front and a back, 80 and 90 mm wide. */
const twoPanels = (...more: Parameters<typeof outline>[]): Drawing =>
  drawing(
    [outline(box(200, 20, 90, 300)), outline(box(50, 10, 80, 320)), ...more.map((each) => outline(...each))],
    [WAIST],
  );

describe('naming panels', () => {
  it('goes from left to right, parts outlines into edges and puts the waist at 0', () => {
    const { pattern, findings } = labelDrawing(twoPanels(), answers());
    expect(findings.map((finding) => finding.kind)).toEqual(['mates-differ', 'mates-differ']);
    expect(pattern.panels.map(({ name }) => name)).toEqual(['front', 'back']);
    expect(pattern.panels.map((panel) => panel.edges.map((edge) => edge.name))).toEqual([
      ['top', 'side', 'bottom', 'cf'],
      ['top', 'cb', 'bottom', 'side'],
    ]);
    const [front, back] = pattern.panels;
    expect(front!.levels).toEqual([{ name: 'waist', y: 0, fromX: 0, toX: 80 }]);
    expect(front!.edges[0]!.path).toEqual(open([0, -140], [80, -140]));
    expect(back!.edges[1]!.path).toEqual(open([90, -130], [90, 170]));
  });

  it('goes by id first, the rest from left to right', () => {
    const drawn = drawing(
      [outline(box(0, 0, 60, 300)), outline(box(100, 0, 70, 300), 'front'), outline(box(200, 0, 80, 300))],
      [stroke(open([-10, 150], [400, 150]), 'waist')],
    );
    const given = answers({ panels: ['front', 'side', 'back'], seams: ['cf', 'front-side', 'side-back', 'cb'] });
    const { pattern } = labelDrawing(drawn, given);
    expect(pattern.panels.map(({ name, levels }) => `${name} ${levels[0]!.toX}`)).toEqual([
      'front 70',
      'side 60',
      'back 80',
    ]);
  });

  it('goes from right to left, and mirrors, with centre front at the right', () => {
    const slanted = closed([200, 40], [290, 20], [290, 320], [200, 320]);
    const { pattern } = labelDrawing(
      drawing([outline(slanted), outline(box(50, 10, 80, 320))], [WAIST]),
      answers({ centreFront: 'right' }),
    );
    expect(pattern.panels.map(({ name, levels }) => `${name} ${levels[0]!.toX}`)).toEqual(['front 90', 'back 80']);
    expect(pattern.panels[0]!.edges[0]!.path).toEqual(open([0, -130], [90, -110]));
  });

  it('says so where panels lie above one another', () => {
    const drawn = drawing(
      [outline(box(0, 0, 60, 300)), outline(box(10, 400, 70, 300))],
      [stroke(open([-10, 150], [100, 150]), 'waist'), stroke(open([-10, 550], [100, 550]), 'waist-2')],
    );
    expect(labelDrawing(drawn, answers()).findings.map((finding) => finding.kind)).toContain('order-doubtful');
  });

  it('refuses other counts, listing outlines and names', () => {
    const { code, message } = caught(() =>
      labelDrawing(twoPanels(), answers({ panels: ['a', 'b', 'c'], seams: ['1', '2', '3', '4'] })),
    );
    expect(code).toBe('input');
    expect(message).toBe(
      '2 outlines but 3 panel names (a, b, c): one without id at 90,170 (80 x 320 mm); one without id at 245,170 (90 x 300 mm)',
    );
    expect(caught(() => labelDrawing(drawing([]), answers())).message).toMatch(/^0 outlines but 2 panel names/);
  });

  it.each([
    [{ seams: ['cf', 'cb'] }, '2 panels (front, back) take 3 seam names, not 2 (cf, cb)'],
    [{ panels: ['front', 'front'] }, "'front' is named twice"],
    [{ seams: ['cf', 'side', 'cf'] }, "'cf' is named twice"],
    [{ seams: ['cf', 'top', 'cb'] }, "no seam can be called 'top'"],
    [{ panels: ['front', 'a/b'] }, "'a/b' cannot be a name"],
    [{ flip: ['bakc'] }, "no panel is called 'bakc'"],
    [
      { levels: [{ name: 'hip', from: { name: 'wiast', offset: 9, text: 'wiast+9mm' } }] },
      "no level is called 'wiast'",
    ],
    [{ pieces: 'single', centreFront: 'right' }, 'separate left and right panels keep the side on which they lie'],
  ] as const)('refuses answers like %j', (over, message) => {
    const error = caught(() => labelDrawing(twoPanels(), answers(over)));
    expect(error.code).toBe('usage');
    expect(error.message).toBe(message);
    expect(error.where).toMatch(/^--/);
  });

  it('lets the ring of separate panels close on one seam', () => {
    const given = answers({ pieces: 'single', seams: ['cb', 'side', 'cb'] });
    expect(labelDrawing(twoPanels(), given).pattern.panels[1]!.edges[1]!.name).toBe('cb');
  });
});

describe('hanging a panel', () => {
  const shape = closed([0, 0], [60, 20], [70, 300], [10, 300]);
  const plain = labelOne(drawing([outline(shape)], [stroke(open([-5, 150], [80, 150]), 'waist')])).panel;

  /** The whole drawing sent through a matrix, outlines made clockwise again. */
  const moved = (matrix: Matrix, ...names: readonly string[]): Drawing => {
    const mirrored = matrix.a * matrix.d - matrix.b * matrix.c < 0;
    const turn = (path: Path): Path => transformPath(path, matrix);
    const lines = { waist: open([-5, 150], [80, 150]), grain: open([30, 40], [30, 250]) };
    return drawing(
      [outline(mirrored ? reversePath(turn(shape)) : turn(shape))],
      names.map((name) => stroke(turn(lines[name as 'waist' | 'grain']), name)),
    );
  };

  const expectLikePlain = (panel: Panel): void => {
    for (const [at, edge] of panel.edges.entries()) {
      const { x, y } = pathStart(edge.path);
      const wanted = pathStart(plain.edges[at]!.path);
      expect(x).toBeCloseTo(wanted.x, 2);
      expect(y).toBeCloseTo(wanted.y, 2);
    }
  };

  it('is done by a tilted waist line', () => {
    const { panel, kinds } = labelOne(moved(rotation(0.1), 'waist'));
    expectLikePlain(panel);
    expect(kinds).toEqual(['panel-turned']);
  });

  it('is done by the grainline, which then is vertical, rather than by the waist', () => {
    const tilted = moved(rotation(-0.05), 'grain', 'waist');
    const { panel, kinds } = labelOne(tilted);
    expectLikePlain(panel);
    expect(panel.grain!.from.x).toBe(panel.grain!.to.x);
    expect(panel.grain!.from.y).toBeLessThan(panel.grain!.to.y);
    expect(kinds).toEqual(['panel-turned']);
    const slanting = drawing(tilted.outlines, [tilted.strokes[0]!, stroke(open([-5, 150], [80, 150]), 'waist')]);
    expect(labelOne(slanting).kinds).toEqual(['panel-turned', 'level-tilted']);
  });

  it('leaves a tilt under 0.05 degrees', () => {
    const { kinds } = labelOne(moved(rotation((0.049 * Math.PI) / 180), 'waist'));
    expect(kinds).toEqual([]);
  });

  it('turns and mirrors a panel that was drawn so', () => {
    expectLikePlain(labelOne(moved(rotation(Math.PI), 'waist', 'grain'), { turn: { front: Math.PI } }).panel);
    expectLikePlain(labelOne(moved(rotation(-Math.PI / 2), 'waist'), { turn: { front: Math.PI / 2 } }).panel);
    expectLikePlain(labelOne(moved(scaling(-1, 1), 'waist', 'grain'), { flip: ['front'] }).panel);
    expectLikePlain(labelOne(moved(scaling(-1, 1), 'waist'), { centreFront: 'right' }).panel);
    expect.hasAssertions();
    const both = compose(translation(50, 60), compose(rotation(Math.PI), scaling(-1, 1)));
    expectLikePlain(labelOne(moved(both, 'waist'), { turn: { front: Math.PI }, flip: ['front'] }).panel);
  });

  it('refuses a grainline that lies across', () => {
    const { message, hint } = caught(() => labelOne(moved(rotation(Math.PI / 2), 'grain', 'waist')));
    expect(message).toBe('the grainline is 90.00 degrees away from vertical');
    expect(hint).toContain('--turn front=90');
  });

  it('notices known levels in the wrong order', () => {
    const drawn = drawing(
      [outline(shape)],
      [stroke(open([-5, 150], [80, 150]), 'waist'), stroke(open([-5, 200], [80, 200]), 'bust')],
    );
    expect(labelOne(drawn).findings[0]!.cure).toBe('if it is drawn upside down: --turn front=180');
  });

  it.each(allShapes.map((make) => [make().name, make()] as const))(
    'gives the %s panel back, edge by edge',
    (_, panel) => {
      const matrix = compose(translation(300, 400), rotation(0.2));
      const drawn = drawing(
        [outline(transformPath(outlineOf(panel), matrix))],
        panel.levels.map((level) =>
          stroke(transformPath(open([level.fromX - 3, level.y], [level.toX + 3, level.y]), matrix), level.name),
        ),
      );
      const { panel: found } = labelOne(drawn);
      const left = Math.min(...panel.edges.flatMap((edge) => edge.path.segments.map((s) => s.start.x)));
      for (const [at, edge] of panel.edges.entries()) {
        const [wanted, got] = [pathStart(edge.path), pathStart(found.edges[at]!.path)];
        expect(got.y).toBeCloseTo(wanted.y, 2);
        expect(got.x - pathStart(found.edges[0]!.path).x).toBeCloseTo(wanted.x - pathStart(panel.edges[0]!.path).x, 2);
        expect(found.edges[at]!.path.segments).toHaveLength(edge.path.segments.length);
      }
      expect(left).toBeLessThanOrEqual(10);
      for (const [at, level] of panel.levels.entries()) {
        expect(found.levels[at]!.name).toBe(level.name);
        expect(found.levels[at]!.toX - found.levels[at]!.fromX).toBeCloseTo(level.toX - level.fromX, 2);
      }
    },
  );

  it('writes nothing finer than a thousandth of a millimetre', () => {
    const { panel } = labelOne(moved(rotation(0.123), 'waist', 'grain'));
    const numbers = JSON.stringify(panel).match(/-?\d+\.\d+/g)!;
    expect(numbers.filter((number) => !/^-?\d+\.\d{1,3}$/.test(number))).toEqual([]);
  });
});

describe('a doubtful corner', () => {
  it.each([0, 0.2, Math.PI])('is placed by the answer that the warning names, on a drawing turned by %d', (radians) => {
    const matrix = compose(translation(400, 500), rotation(radians));
    const turned = (path: Path): Path => transformPath(path, matrix);
    const drawn = drawing(
      [outline(turned(closed([0, 11], [12, 0], [300, 0], [300, 300], [0, 300])))],
      [stroke(turned(open([-5, 150], [305, 150])), 'waist')],
    );
    const turn = { front: radians === Math.PI ? Math.PI : 0 };
    const topFront = (over: Partial<LabelAnswers>) =>
      pathStart(labelOne(drawn, { ...over, turn }).panel.edges[0]!.path);
    const doubt = labelOne(drawn, { turn }).findings.find(({ kind }) => kind === 'corner-doubtful')!;
    const typed = /^if wrong: --corner (.*)$/.exec(doubt.cure!)![1]!;
    const { corners } = labelAnswers({ line: 'stitching', panels: ['front'], seams: ['cf,cb'], corner: [typed] });
    const places = [topFront({}), topFront({ corners })].map(({ x, y }) => [Math.round(x), Math.round(y)]);
    expect(places.toSorted((a, b) => a[0]! - b[0]!)).toEqual([
      [0, -139],
      [12, -150],
    ]);
  });
});

const across = (y: number, ...names: string[]) => stroke(open([-5, y], [105, y]), ...names);

const heights = (found: Panel) => Object.fromEntries(found.levels.map(({ name, y }) => [name, y]));

const typedLevel = (level: string): LabelAnswers =>
  labelAnswers({ line: 'stitching', panels: ['a'], seams: ['b,c'], level: [level] });

const likeLevels = (drawn: Drawing): unknown[] =>
  labelDrawing(drawn, answers())
    .findings.filter(({ kind }) => kind === 'line-like-level')
    .map(({ where, message, cure }) => [where, message, cure]);

describe('levels', () => {
  const panel = outline(box(0, 0, 100, 400));
  const two = (...lines: readonly Stroke[]) =>
    drawing([panel, outline(box(200, 0, 100, 400))], [stroke(open([-5, 200], [305, 200]), 'waist'), ...lines]);

  it('are called by id, class or group, alone or with more after - or _', () => {
    const drawn = drawing(
      [panel],
      [
        across(200, 'waist-2'),
        across(100, 'path12', 'Bust_left'),
        across(300, 'path13', 'layer1', 'hip'),
        across(250, 'high-hip-b'),
        across(50, 'waistband'),
      ],
    );
    const { panel: found } = labelOne(drawn);
    expect(heights(found)).toEqual({ bust: -100, waist: 0, 'high-hip': 50, hip: 100 });
    expect(found.art).toContain('<path d="M');
  });

  it('may have any name that is asked for; the longest fits', () => {
    const drawn = drawing([panel], [across(200, 'waist'), across(230, 'waist-low-2')]);
    const { panel: found } = labelOne(drawn, { levels: [{ name: 'waist-low', down: {} }] });
    expect(heights(found)).toEqual({ waist: 0, 'waist-low': 30 });
  });

  it('are measured down from the highest point, or from another level', () => {
    const peaked = outline(closed([0, 20], [50, 0], [100, 20], [100, 400], [0, 400]));
    const { panel: found } = labelOne(drawing([peaked]), {
      levels: [
        { name: 'bust', from: { name: 'waist', offset: 101.6, text: 'waist+4in' } },
        { name: 'ribs', from: { name: 'bust', offset: -50, text: 'bust-50mm' } },
        { name: 'waist', down: { front: 210 } },
      ],
    });
    expect(heights(found)).toEqual({ bust: -101.6, ribs: -51.6, waist: 0 });
    expect(pathStart(found.edges[0]!.path).y).toBe(-190);
  });

  it('win over drawn ones where they are answered', () => {
    const drawn = drawing([panel], [across(200, 'waist'), across(100, 'bust')]);
    const { panel: found } = labelOne(drawn, {
      levels: [{ name: 'bust', from: { name: 'waist', offset: 120, text: 'waist+120mm' } }],
    });
    expect(heights(found)).toEqual({ bust: -120, waist: 0 });
  });

  describe('of a name that nobody said is a level', () => {
    it('are told of, once for all panels, and are levels where the name is given alone', () => {
      const drawn = two(
        across(150, 'ribs-front', 'layer1'),
        stroke(open([200.3, 150], [299.8, 150]), 'path7', 'ribs_back'),
      );
      expect(likeLevels(drawn)).toEqual([
        [
          'ribs',
          'lines ribs-front, ribs_back cross panels front, back from seam to seam',
          'if it is a level, add --level ribs',
        ],
      ]);
      const { pattern } = labelDrawing(drawn, answers({ levels: [{ name: 'ribs', down: {} }] }));
      expect(pattern.panels.map(heights)).toEqual([
        { ribs: -50, waist: 0 },
        { ribs: -50, waist: 0 },
      ]);
      expect(pattern.panels.map(({ art }) => art)).toEqual([undefined, undefined]);
    });

    it('are told of once where one line crosses several panels, and not as left out', () => {
      const drawn = two(stroke(open([-5, 100], [390, 100]), 'rib-line'));
      expect(labelDrawing(drawn, answers()).findings).toHaveLength(1);
      expect(likeLevels(drawn)).toEqual([
        [
          'rib-line',
          'a line rib-line crosses panels front, back from seam to seam',
          'if it is a level, add --level rib-line',
        ],
      ]);
    });

    it('are told of in the singular, whatever follows the name', () => {
      expect(likeLevels(two(across(100, 'rib-line_f')))).toEqual([
        [
          'rib-line',
          'a line rib-line_f crosses panel front from seam to seam',
          'if it is a level, add --level rib-line',
        ],
      ]);
    });

    it.each([
      ['nameless', across(100, 'path12-3')],
      ['aslant', stroke(open([-5, 100], [105, 120]), 'ribs')],
      ['bent', stroke(open([-5, 100], [50, 106], [105, 100]), 'ribs')],
      ['short of a seam', stroke(open([-5, 100], [90, 100]), 'ribs')],
      ['called like an edge', across(100, 'top-front')],
    ] as const)('are left alone where %s', (_, line) => {
      expect(likeLevels(two(line))).toEqual([]);
    });

    it('are asked for by the name alone, and by nothing that is no name', () => {
      expect(typedLevel(' ribs ').levels).toEqual([{ name: 'ribs', down: {} }]);
      for (const wrong of ['', ' ', 'ribs=', 'bust:waist+7in', 'waist+7in']) {
        expect(caught(() => typedLevel(wrong)).message).toBe(`'${wrong}' is not a level`);
      }
      expect(labelFlags({ levels: { ribs: true, hip: 'waist-8in' } }, 'a.json').level).toEqual([
        'ribs',
        'hip=waist-8in',
      ]);
    });

    it('are refused where no such line is drawn', () => {
      const { code, message, where } = caught(() =>
        labelDrawing(two(across(150, 'ribs')), answers({ levels: [{ name: 'rips', down: {} }] })),
      );
      expect([code, where, message]).toEqual([
        'usage',
        '--level rips',
        "no straight line across a panel is called 'rips'",
      ]);
    });
  });

  it('that lie in a circle are refused', () => {
    const levels = [
      { name: 'a', from: { name: 'b', offset: 1, text: 'b+1mm' } },
      { name: 'b', from: { name: 'a', offset: 1, text: 'a+1mm' } },
    ];
    expect(caught(() => labelOne(drawing([panel], [across(200, 'waist')]), { levels })).message).toBe(
      'level a is measured from b is measured from a',
    );
  });

  it('must hold a waist on every panel', () => {
    const drawn = drawing([panel, outline(box(200, 0, 100, 400))], [across(200, 'waist')]);
    const { message, hint } = caught(() => labelDrawing(drawn, answers()));
    expect(message).toBe('no waist line on back: every panel needs one, as panels are matched on it');
    expect(hint).toContain('--level waist=back:210mm');
  });

  it('are left out, with a word, where they miss the panel', () => {
    const { kinds } = labelOne(drawing([panel], [across(200, 'waist')]), {
      levels: [{ name: 'hip', from: { name: 'waist', offset: -300, text: 'waist-300mm' } }],
    });
    expect(kinds).toEqual(['level-off-panel']);
  });

  it('are spoken of where they meet the top instead of a seam', () => {
    const scooped = outline(closed([0, 0], [100, 120], [100, 400], [0, 400]));
    const { kinds, panel: found } = labelOne(drawing([scooped], [across(200, 'waist'), across(60, 'bust')]));
    expect(kinds).toEqual(['level-meets-no-seam']);
    expect(found.levels[0]).toEqual({ name: 'bust', y: -140, fromX: 0, toX: 50 });
  });

  it('drawn twice at different heights are spoken of', () => {
    const second = stroke(open([10, 210], [90, 210]), 'waist-2');
    expect(labelOne(drawing([panel], [across(200, 'waist'), second])).kinds).toEqual(['level-drawn-twice']);
  });
});

describe('notches', () => {
  const panel = outline(box(0, 0, 100, 400));
  const notchOf = (...places: readonly Place[]) => {
    const drawn = drawing([panel], [stroke(open([-5, 200], [105, 200]), 'waist'), stroke(open(...places), 'n')]);
    return labelOne(drawn).panel.notches[0];
  };

  it.each([
    [
      'crossing the edge',
      [
        [95, 300],
        [104, 300],
      ],
    ],
    [
      'touching it from inside',
      [
        [100, 300],
        [95, 300],
      ],
    ],
    [
      'stopping just short of it',
      [
        [99.7, 300],
        [95, 300],
      ],
    ],
  ] as const)('%s run from the edge inwards', (_, places) => {
    expect(notchOf(...places)).toEqual({ edge: 'cb', at: { x: 100, y: 100 }, inner: { x: 95, y: 100 } });
  });

  it('drawn outwards are turned inwards', () => {
    expect(notchOf([100, 300], [106, 300])).toEqual({ edge: 'cb', at: { x: 100, y: 100 }, inner: { x: 94, y: 100 } });
  });

  it('drawn as a V point inwards', () => {
    expect(notchOf([0, 297], [5, 300], [0, 303])).toEqual({
      edge: 'cf',
      at: { x: 0, y: 100 },
      inner: { x: 5, y: 100 },
    });
  });

  it('named like a level are notches when they are short', () => {
    const drawn = drawing(
      [panel],
      [stroke(open([-5, 200], [105, 200]), 'waist'), stroke(open([-3, 210], [5, 210]), 'waist-notch')],
    );
    expect(labelOne(drawn).panel.notches).toHaveLength(1);
  });

  it('are no longer than 12 mm: longer lines stay artwork', () => {
    const drawn = drawing(
      [panel],
      [stroke(open([-5, 200], [105, 200]), 'waist'), stroke(open([100, 300], [87, 300]), 'n')],
    );
    const { panel: found } = labelOne(drawn);
    expect(found.notches).toEqual([]);
    expect(found.art).toContain('M 100 100 L 87 100');
  });
});

describe('outlines within outlines', () => {
  const outer = outline(box(0, 0, 130, 430));
  const inner = outline(box(15, 15, 100, 400));
  const waist = stroke(open([-5, 200], [140, 200]), 'waist');

  it('are one panel: the inner line with its cutting line', () => {
    const { panel, kinds } = labelOne(drawing([outer, inner], [waist]));
    expect(kinds).toEqual(['two-lines']);
    expect(panel.edges[0]!.path).toEqual(open([0, -185], [100, -185]));
    expect(panel.edges.map((edge) => edge.allowance)).toEqual([15, 15, 15, 15]);
    expect(panel.cutting).toBeDefined();
  });

  it('are one panel: the outer line, the inner told of and kept as drawn', () => {
    const { panel, findings } = labelOne(drawing([inner, outer], [waist]), { line: 'cutting' });
    expect(panel.edges[0]!.path).toEqual(open([0, -200], [130, -200]));
    expect(panel.cutting).toBeUndefined();
    expect(findings[0]!.message).toContain('the inner, 15.00 mm inside it, is kept');
    expect(panel.art).toContain('M 15 -185 L 115 -185');
  });

  it('leave out a cutting line whose width varies along an edge', () => {
    const uneven = outline(closed([0, 0], [130, 0], [145, 430], [0, 430]));
    const { panel, findings } = labelOne(drawing([uneven, inner], [waist]));
    expect(panel.cutting).toBeUndefined();
    expect(findings[0]!.message).toMatch(/its allowance along cb varies/);
  });

  it('are refused where three make a nest', () => {
    const third = outline(box(30, 30, 70, 370));
    const { code, message } = caught(() => labelOne(drawing([outer, inner, third], [waist])));
    expect(code).toBe('input');
    expect(message).toMatch(/^3 outlines lie one within another/);
  });

  it('are a frame and its panels where several lie side by side in a rectangle', () => {
    const frame = outline(box(-20, -20, 400, 500));
    const { pattern, findings } = labelDrawing(
      drawing(
        [frame, outline(box(0, 0, 100, 400)), outline(box(200, 0, 100, 400))],
        [stroke(open([-5, 200], [350, 200]), 'waist')],
      ),
      answers(),
    );
    expect(pattern.panels).toHaveLength(2);
    expect(findings.map((finding) => finding.kind)).toEqual(['frame-left-out']);
  });

  it('are marks where they are small or far from the edge', () => {
    const mark = outline(box(40, 60, 20, 20));
    const { panel } = labelOne(drawing([inner, mark], [waist]));
    expect(panel.art).toContain('M 25 -140');
  });

  it('that overlap are refused with both places', () => {
    const { code, message, hint } = caught(() =>
      labelDrawing(
        drawing([outline(box(0, 0, 100, 400), 'front'), outline(box(90, 10, 100, 370))], [waist]),
        answers(),
      ),
    );
    expect(code).toBe('input');
    expect(message).toMatch(/^outline one without id at 140,195 \(100 x 370 mm\) overlaps the outline front at 50,200/);
    expect(hint).toContain('move the panels apart');
  });

  it('that only touch are two panels', () => {
    const drawn = drawing(
      [outline(box(0, 0, 100, 400)), outline(box(100, 0, 90, 400))],
      [stroke(open([-5, 200], [195, 200]), 'waist')],
    );
    expect(labelDrawing(drawn, answers()).pattern.panels.map((panel) => panel.levels[0]!.toX)).toEqual([100, 90]);
  });

  it('that are the same outline drawn twice count once', () => {
    expect(labelOne(drawing([inner, outline(box(15, 15, 100, 400), 'front')], [waist])).kinds).toEqual([
      'outline-drawn-twice',
    ]);
  });

  it('that cross themselves are refused with the place', () => {
    const bow = outline(closed([0, 0], [100, 400], [100, 0], [0, 400]));
    expect(caught(() => labelOne(drawing([bow], [waist]))).message).toMatch(/crosses itself at 50,200/);
  });
});

const longWaist = (y: number) => stroke(open([-5000, y], [5000, y]), 'waist');

describe('scale and artwork', () => {
  it('asks about panels too small or too large', () => {
    expect(labelOne(drawing([outline(box(0, 0, 13, 18))], [longWaist(7)])).kinds).toEqual(['scale-doubtful']);
    expect(labelOne(drawing([outline(box(0, 0, 900, 2600))], [longWaist(1000)])).kinds).toEqual(['scale-doubtful']);
    expect(caught(() => labelOne(drawing([outline(box(0, 0, 900, 100_001))], [longWaist(1000)]))).code).toBe('input');
  });

  it('keeps artwork inside with the panel, readable on a mirrored one, and tells of what lies outside', () => {
    const drawn: Drawing = {
      ...drawing([outline(box(0, 0, 100, 400))], [stroke(open([-5, 200], [105, 200]), 'waist')]),
      artwork: [
        { markup: '<text x="20" y="30">cut 2</text>', at: { x: 20, y: 30 } },
        { markup: '<text x="300" y="30">title</text>', at: { x: 300, y: 30 } },
      ],
    };
    const { panel, findings } = labelOne(drawn);
    expect(panel.art).toBe('<g transform="matrix(1 0 0 1 0 -200)"><text x="20" y="30">cut 2</text></g>');
    expect(findings[0]!.message).toBe('1 other mark outside the panels left out');
    const { panel: mirrored } = labelOne(drawn, { flip: ['front'] });
    expect(mirrored.art).toBe('<g transform="matrix(1 0 0 1 60 -200)"><text x="20" y="30">cut 2</text></g>');
  });
});

describe('names in the wrong order', () => {
  const tall = [300, 320, 340, 360];
  const stepped = drawing(
    tall.map((height, at) => outline(box(at * 150, 0, 90, height))),
    [stroke(open([-5, 150], [700, 150]), 'waist')],
  );
  const four = answers({ panels: ['back', 'side', 'mid', 'front'], seams: ['cf', 'a', 'b', 'c', 'cb'] });

  it('are asked about where most seams have edges of very different lengths', () => {
    const { findings } = labelDrawing(stepped, four);
    expect(findings.map(({ kind }) => kind)).toEqual(['order-doubtful']);
    expect(findings[0]!.message).toBe(
      '3 of 3 seams have edges of very different lengths: are the names in the right order, from centre front to centre back?',
    );
  });

  it('are asked about where centre front and centre back are named at the wrong ends, on any line', () => {
    const turned = { ...four, line: 'cutting', seams: ['cb', 'c', 'b', 'a', 'cf'] } as const;
    expect(labelDrawing(stepped, turned).findings[0]).toMatchObject({
      kind: 'order-doubtful',
      message: expect.stringMatching(/^seam cf is not named first, and seam cb is not named last: are the names/),
    });
    expect(labelDrawing(stepped, { ...turned, pieces: 'single' }).findings).toEqual([]);
  });
});

describe('lines that no panel takes', () => {
  const lines = [
    stroke(open([-5, 200], [105, 200]), 'waist'),
    stroke(open([93, 100], [107, 100]), 'n-14'),
    stroke(open([91, 300], [109.5, 300]), 'n-18'),
    stroke(open([300, 10], [300, 60])),
  ];

  it('are told with their places; one on an edge that is too long for a notch on its own', () => {
    const { panel, findings } = labelOne(drawing([outline(box(0, 0, 100, 400))], lines));
    expect(panel.notches).toEqual([]);
    expect(findings.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^the line at 100,100 lies on the edge but is 14\.0 mm long/),
      'the line at 100,300 lies on the edge but is 18.5 mm long; it is left out',
      '1 line outside the panels left out: at 300,35',
    ]);
    expect(findings[1]!.cure).toBe('if it is a notch, shorten it: a notch is 12 mm at most');
  });
});

describe('a drawing read at a wrong scale', () => {
  it('is asked about its scale before its waist', () => {
    const small = drawing([outline(box(0, 0, 5, 15))], [stroke(open([-1, 7], [6, 7]), 'waist')]);
    expect(caught(() => labelOne(small)).message).toMatch(/^an unlikely size for a panel/);
    const narrow = drawing([outline(box(0, 0, 11, 40))], [stroke(open([0, 20], [11, 20]), 'waist')]);
    const { message, hint, where } = caught(() => labelOne(narrow));
    expect(message).toBe('the line called waist is only 11.0 mm long there: is the drawing at its true scale?');
    expect(hint).toMatch(/--scale/);
    expect(where).toBe('panel front');
  });
});
