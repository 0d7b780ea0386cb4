import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { slideEdge } from '../../src/alterations/edges/slide-edge.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { settleMarks } from '../../src/pattern/settle-marks.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
import { runMain, type Finished } from '../support/run-main.ts';
import { runScript } from '../support/run-script.ts';
import { inFolder, runShell } from '../support/run-staywright.ts';
import { allShapes, mirrored, patternOf, withNotches } from '../support/shaped-panels.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

/** The panel between two seams, without the texts that no sheet holds, its top and bottom slid out of true. */
const askew = (panel: Panel, name: string, seams: readonly [string, string], by: number): Panel => {
  const edges = panel.edges.map(({ text: _text, ...edge }, at) => ({
    ...edge,
    name: at === 1 ? seams[1] : at === 3 ? seams[0] : edge.name,
  }));
  const drawn = withNotches({ ...panel, name, edges });
  const slid = slideEdge(drawn, 'top', { front: by, back: -by / 2 });
  const both = typeof slid === 'string' ? slid : slideEdge(slid, 'bottom', { front: -by, back: by / 3 });
  if (typeof both === 'string') throw new Error(both);
  return settleMarks(drawn, both);
};

/** A folder with the golden inputs and `shape.svg`. */
const inInputs = <Result>(work: (folder: string) => Promise<Result>, sheet?: string): Promise<Result> =>
  inFolder((folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    if (sheet !== undefined) writeFileSync(join(folder, 'shape.svg'), sheet);
    return work(folder);
  });

/** The commands, each fed with what the one before it wrote. */
const pipe = (commands: readonly string[], sheet?: string): Promise<Finished> =>
  inInputs((cwd) => runScript(commands.map((command) => `staywright ${command}`).join(' | '), { cwd }), sheet);

const SETTLED = { codes: [0, 0, 0], said: '', same: true };

/** What comes of truing again what the commands trued, and whether walk finds anything in it. */
const trueAgain = async (commands: readonly string[], sheet?: string): Promise<typeof SETTLED> => {
  const first = await pipe(commands, sheet);
  const second = await runMain(['true', '-q'], { stdin: first.stdout });
  const walked = await runMain(['walk', '-q', '--tolerance', '0.06mm'], { stdin: first.stdout });
  const runs = [first, second, walked];
  return {
    codes: runs.map(({ code }) => code),
    said: runs.map(({ stderr }) => stderr).join(''),
    same: second.stdout === first.stdout && first.stdout.endsWith('</svg>\n'),
  };
};

describe('a second run of true writes the same bytes as the first', () => {
  it.each(allShapes.flatMap((shape) => [false, true].map((flip) => [shape().name, flip, shape] as const)))(
    'on %s panels, mirrored %s',
    async (_name, flip, shape) => {
      const [one, other] = flip ? [mirrored(shape()), shape()] : [shape(), mirrored(shape())];
      const pattern = patternOf(askew(one, 'front', ['cf', 'side'], 3), askew(other, 'back', ['side', 'cb'], -2));
      expect(await trueAgain(['true -q shape.svg'], writeSheet({ pattern, record: [] }))).toEqual(SETTLED);
    },
  );

  it.each([
    'take-in net.svg --seam side-back --amount 6mm --above waist',
    'let-out net.svg --seam front-side --amount 1/2in --below waist',
    'let-out net.svg --seam cb --amount 9mm',
    'add-allowance net.svg --allowance 15mm --corners folded',
    'strip-allowance cut.svg --allowance 15mm',
    'true net.svg --keep front-side:front --keep side-back:back',
  ])('after %s', async (command) => {
    expect(await trueAgain([`${command} -q`, 'true -q'])).toEqual(SETTLED);
  });
});

it('a sheet that is true already comes out as it went in, its record too', async () => {
  const first = await pipe(['true -q net.svg']);
  expect(await runMain(['true'], { stdin: first.stdout })).toEqual({
    code: 0,
    stdout: first.stdout,
    stderr: 'true:\nNothing to true: every seam already matches.\n',
  });
});

it('walk passes the sheet on as it was', async () => {
  const first = await pipe(['true -q net.svg']);
  expect(await runMain(['walk', '-q', '--through'], { stdin: first.stdout })).toEqual(first);
});

it('walk ends with 1 on a finding, and passes the sheet on all the same', async () => {
  const ran = await inInputs((cwd) =>
    runShell('staywright walk net.svg --through > second.svg || echo "ended with $?"; tail -1 second.svg', { cwd }),
  );
  expect(ran.stdout).toBe('ended with 1\n</svg>\n');
  expect(ran.stderr).toMatch(/^walk:\n[^]*4 things to true: 4 peaks or dips\.\n$/);
});

describe('of seams that are named', () => {
  it('true and walk speak of those alone', async () => {
    const trued = await pipe(['true net.svg --seam cb -n']);
    expect(trued.stderr).toMatch(/\ncb has one edge, so there is nothing to true along it\.\n$/);
    const walked = await pipe(['true net.svg -q --seam front-side', 'walk --seam front-side']);
    expect(walked.stdout.split('\n').at(-2)).toBe('front-side matches within 1.60 mm.');
  });

  it('an edge to keep must be of one of them', async () => {
    expect(await pipe(['true net.svg --seam side-back --keep front-side:front'])).toMatchObject({
      code: 2,
      stderr:
        'staywright true: --keep front-side:front: seam front-side is not among those to true\n  hint: leave it out, or name the seam with --seam too\n',
    });
  });
});

it('changes under 1/64 in are counted, not told one by one', async () => {
  const [one, other] = [allShapes[0]!(), mirrored(allShapes[0]!())];
  const pattern = patternOf(askew(one, 'front', ['cf', 'side'], 0.6), askew(other, 'back', ['side', 'cb'], -0.6));
  const sheet = writeSheet({ pattern, record: [] });
  const trued = await pipe(['true shape.svg -n'], sheet);
  expect(trued.code).toBe(0);
  expect(trued.stderr).not.toMatch(/grows at the top|, now \d/);
  expect(trued.stderr).toMatch(/\n\d edges change by less than 0\.40 mm\n/);
  const walked = await pipe(['true -q shape.svg', 'walk --tolerance 0mm'], sheet);
  expect(walked.code).toBe(0);
  expect(walked.stdout).toMatch(/\nEvery seam matches within 0\.00 mm\.\n$/);
});
