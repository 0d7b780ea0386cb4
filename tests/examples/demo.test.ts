import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { panelEdges } from '../../examples/drawing/cutting-line.js';
import { LEVELS, netPanels, SIZES, type NetPanel } from '../../examples/drawing/net-panels.js';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { parseBody } from '../../src/commands/body-file.ts';
import { gap, type GapReport } from '../../src/measure/gap.ts';
import { girth as measureGirth } from '../../src/measure/girth.ts';
import { walk } from '../../src/measure/walk.ts';
import { levelCalled } from '../../src/pattern/girth-at.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import type { Pattern } from '../../src/pattern/pattern.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import { runMain } from '../support/run-main.ts';
import { runRecordScript } from '../support/run-record-script.ts';
import { demoRun, runAgain, type DemoRun } from './demo-run.ts';

/** What draws, prints, traces and tells; sheets are made again from their own records. */
const AGAIN = ['03-measure-sizes', '05-allowance-and-print', '06-picture', '08-trace-a-scan', '09-versions'];

let run: DemoRun;
let again: DemoRun;

beforeAll(() => {
  run = demoRun();
  again = runAgain(run, AGAIN);
}, 180_000);

const panelsOf = (name: string): readonly Panel[] => patternIn(name).panels;

const patternIn = (name: string): Pattern => {
  const reading = readSvg(run.text(name), name);
  if (reading.kind !== 'sheet') throw new Error(`${name} is no sheet`);
  return reading.sheet.pattern;
};

/** The gap report of a sheet on one of the example's bodies. */
const gapOn = (name: string, body: string): GapReport => {
  const file = new URL(`../../examples/${body}`, import.meta.url);
  const { levels } = parseBody(JSON.parse(readFileSync(file, 'utf8')), body);
  const wanted = levels.map(({ level, girth: size, halves, reduction, gap: opening }) => ({
    level: levelCalled(level),
    body: size,
    ...(halves === undefined ? {} : { halves }),
    reduction: reduction!,
    gap: opening!,
  }));
  return gap(patternIn(name), wanted);
};

/** What each half still needs at each level, against the body as it was measured at the fitting. */
const halfNeeds = (name: string): number[] =>
  gapOn(name, 'body-at-the-fitting.json').rows.flatMap((row) => row.halves.map(({ needs }) => needs));

const girthOf = (name: string, level: string): number =>
  measureGirth(patternIn(name), [levelCalled(level)]).levels[0]!.girth;

/** The widths of all panels at all their levels. */
const widths = (name: string): number[] =>
  panelsOf(name).flatMap(({ levels }) => levels.map(({ fromX, toX }) => toX - fromX));

/** Whether two sheets have the same widths. */
const same = (one: string, other: string): boolean =>
  widths(one).every((width, at) => Math.abs(width - widths(other)[at]!) < 0.01);

const worst = ({ rows }: GapReport): number => Math.max(...rows.map(({ needs }) => Math.abs(needs)));

describe('the example run', () => {
  it('leaves the same bytes every time', () => {
    expect([...again.files.keys()].toSorted()).toEqual([...run.files.keys()].toSorted());
    const differing = [...run.files].filter(([name, bytes]) => !again.files.get(name)!.equals(bytes));
    expect(differing.map(([name]) => name)).toEqual([]);
    const printed = run.printed.split(/^--- (\S+)\n/m);
    expect(again.printed).toBe(AGAIN.map((name) => printed[printed.indexOf(name) + 1]).join(''));
  });

  it.each(SIZES)('strips size $number back to the net panels it was designed from, within 0.02 mm', (size) => {
    const panels = panelsOf(`2-net-size-${size.number}.svg`);
    const distances = netPanels(size).map((net, i) => farthest(net, panels[i]!));
    expect(Math.max(...distances)).toBeLessThan(0.02);
  });

  it('measures every size as it was designed', () => {
    for (const size of SIZES) {
      const panels = panelsOf(`2-net-size-${size.number}.svg`);
      for (const level of ['bust', 'underbust', 'waist', 'high-hip']) {
        const drawn = panels.map((panel) => panel.levels.find(({ name }) => name === level)!);
        const girth = 2 * drawn.reduce((sum, { fromX, toX }) => sum + Math.abs(toX - fromX), 0);
        const h = LEVELS[level]!;
        const designed = 2 * netPanels(size).reduce((sum, panel) => sum + panel.back(h).x - panel.front(h).x, 0);
        expect(Math.abs(girth - designed)).toBeLessThan(0.1);
      }
    }
  });

  it('changes only the edges that had to change', () => {
    const before = panelsOf('2-net-size-2.svg');
    const changed = panelsOf('4-altered.svg').flatMap((panel, i) =>
      panel.edges
        .filter((edge, at) => edge.text !== before[i]!.edges[at]!.text)
        .map((edge) => `${panel.name} ${edge.name}`),
    );
    expect(changed).toEqual([
      'side-front side',
      'side-front bottom',
      'side-back bottom',
      'side-back side',
      'back top',
      'back cb',
    ]);
  });

  it('ends with every level within a tenth of an inch of what the body needs, where one was nearly an inch off', () => {
    const before = gapOn('2-net-size-2.svg', 'body.json');
    const after = gapOn('4-altered.svg', 'body.json');
    expect(worst(before)).toBeGreaterThan(24);
    expect(worst(after)).toBeLessThan(2.54);
    expect(after.evenness).toBeLessThan(before.evenness / 8);
  });

  it('leaves in every sheet a record whose script makes it again from the drawing, to the byte', async () => {
    const drawn = fileURLToPath(new URL('../../examples/drawn-pattern.svg', import.meta.url));
    const made = new Set<string>();
    // Between them, and the steps on their way, these are all the sheets there are.
    for (const [name, original] of [
      ['2-net-size-1.svg', drawn],
      ['2-net-size-3.svg', drawn],
      ['5-mock-up.svg --since 4-altered.svg', '4-altered.svg'],
      ['7-mock-up-2.svg', drawn],
      ['8-stays.svg', '8-traced.svg'],
    ] as const) {
      const { stdout } = await runMain(['record', ...name.split(' ')], { cwd: run.folder });
      for (const text of await runRecordScript(stdout, run.folder, original)) made.add(text);
    }
    const sheets = [...run.files.keys()].filter(
      (name) => name.endsWith('.svg') && run.text(name).includes('data-sheet='),
    );
    expect(sheets).toHaveLength(21);
    expect(sheets.filter((name) => !made.has(run.text(name)))).toEqual([]);
    const { code, stdout } = await runMain(['record', '7-mock-up-2.svg', '--verify', '7g-sides.svg'], {
      cwd: run.folder,
    });
    expect({ code, last: stdout.split(': ').at(-1) }).toEqual({
      code: 0,
      last: '2 steps run again, and the sheet is the same.\n',
    });
  });

  it('prints a PDF for each mock-up', () => {
    for (const name of ['5-mock-up.pdf', '7-mock-up-2.pdf']) expect(run.text(name).startsWith('%PDF-1.')).toBe(true);
  });

  it('brings both halves within a tenth of an inch of what the fitting asked, where one was over an inch off', () => {
    const before = halfNeeds('4-altered.svg');
    const after = halfNeeds('7h-trued.svg');
    expect(before).toHaveLength(8);
    expect(Math.max(...before.map(Math.abs))).toBeGreaterThan(25.4);
    expect(Math.max(...after.map(Math.abs))).toBeLessThan(2.54);
  });

  it('leaves every seam of the second fitting true', () => {
    const { walks, lengths, notches, bends } = walk(patternIn('7h-trued.svg'), []);
    expect(walks).toHaveLength(10);
    expect([...lengths, ...notches, ...bends]).toEqual([]);
  });

  it('moves at each step of the second fitting only what that step was for', () => {
    expect(same('4-altered.svg', '7a-waist.svg')).toBe(true);
    expect(same('7a-waist.svg', '7b-top.svg')).toBe(true);
    expect(same('7b-top.svg', '7c-fold.svg')).toBe(false);
    expect(same('7g-sides.svg', '7h-trued.svg')).toBe(true);
    expect(girthOf('7d-waist-again.svg', 'waist')).toBeCloseTo(girthOf('7b-top.svg', 'waist'), 2);
    expect(girthOf('7d-waist-again.svg', 'bust')).toBeCloseTo(girthOf('7b-top.svg', 'bust') - 25.4 / 4, 2);
  });
});

const root = new URL('../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');
const UPDATE = process.env['UPDATE'] === '1';

/** The commands of a script, without what is the same in all of them and without the keeping of reports. */
const commandsOf = (script: string): string =>
  read(`examples/${script}`)
    .split('\n')
    .filter((line) => !/^(#|set -eu|\. )/.test(line))
    .join('\n')
    .replace(/^keep \S+ /gm, 'staywright ')
    .trim();

/** The whole of a script but for how it begins, the maker's comments with it. */
const commentedOf = (script: string): string =>
  read(`examples/${script}`)
    .split('\n')
    .filter((line) => !/^(#!|set -eu|\. )/.test(line))
    .join('\n')
    .replace(/^keep \S+ /gm, 'staywright ')
    .trim();

const textOf = (kind: string, name: string): readonly [string, string] => {
  if (kind === 'printed') return ['text', run.text(name).trimEnd()];
  return ['sh', kind === 'script' ? commandsOf(name) : commentedOf(name)];
};

/** The README with each marked block filled from the scripts and the run. */
const filled = (readme: string): string =>
  readme.replace(
    /<!-- (script|commented|printed): (\S+) -->\n(?:\n```\w+\n[\s\S]*?\n```\n)?/g,
    (_, kind: string, name: string) => {
      const [language, text] = textOf(kind, name);
      return `<!-- ${kind}: ${name} -->\n\n\`\`\`${language}\n${text}\n\`\`\`\n`;
    },
  );

/** The file as it stands; under UPDATE=1 it is first rewritten, and the run fails so that nobody takes it for a pass. */
const standing = (path: string, wanted: string): string => {
  if (UPDATE && (!existsSync(new URL(path, root)) || read(path) !== wanted)) {
    writeFileSync(new URL(path, root), wanted);
    throw new Error(`${path} was rewritten: read it before you commit it`);
  }
  return read(path);
};

describe('the README', () => {
  it('shows the commands of the example and what they print', () => {
    const wanted = filled(read('README.md'));
    expect(standing('README.md', wanted)).toBe(wanted);
  });

  it.each(['overlay', 'laced-before', 'laced-after'])('shows the picture that the run draws: %s', (name) => {
    const wanted = run.text(`6-${name}.svg`);
    expect(standing(`docs/${name}.svg`, wanted)).toBe(wanted);
  });

  it('names no figure of the example that the run, its scripts or its sources do not', () => {
    const readme = read('README.md');
    const prose = readme
      .slice(readme.indexOf('## The example'), readme.indexOf('## The commands'))
      .replace(/```[\s\S]*?```/g, '');
    const known = [
      run.printed,
      run.said,
      ...['01-label', '02-strip', '04-alter', '05-allowance-and-print'].map((name) => commandsOf(`${name}.sh`)),
      commentedOf('07-second-fitting.sh'),
    ]
      .concat(read('examples/drawn-pattern.svg').match(/to fit[^<]*/g)!)
      .join('\n');
    const figures = prose.match(/\d+(?:[./]\d+)? (?=(?:in|mm)\b)/g)!.map((text) => text.trim());
    expect(figures.length).toBeGreaterThan(3);
    const strange = figures.filter((figure) => !new RegExp(`(?<![\\d./])${figure}(?!\\d|[./]\\d)`).test(known));
    expect(strange).toEqual([]);
  });
});

/** The greatest distance of a sheet's panel from the net panel, laid on each other at the waist. */
const farthest = (net: NetPanel, panel: Panel): number => {
  const waist = panel.levels.find(({ name }) => name === 'waist')!;
  const shift = waist.fromX - net.front(0).x;
  const distances = panelEdges(net, 0).flatMap((edge, at) =>
    edge
      .flatMap((cubic) => [cubic[0]!, cubic[3]!, middle(cubic)])
      .map(([x, h]) => nearestPoint(panel.edges[at]!.path, { x: x + shift, y: waist.y - h }).distance),
  );
  return Math.max(...distances);
};

const middle = (cubic: ReturnType<typeof panelEdges>[number][number]): readonly [number, number] => {
  const axis = (k: 0 | 1): number => (cubic[0]![k] + 3 * cubic[1]![k] + 3 * cubic[2]![k] + cubic[3]![k]) / 8;
  return [axis(0), axis(1)];
};
