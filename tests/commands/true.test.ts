import { cpSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { slideEdge } from '../../src/alterations/edges/slide-edge.ts';
import type { Panel } from '../../src/pattern/panel.ts';
import { settleMarks } from '../../src/pattern/settle-marks.ts';
import { writeSheet } from '../../src/svg/write-sheet.ts';
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

/** The commands, each fed with what the one before it wrote, in a folder with the golden inputs and `shape.svg`. */
const run = (script: string, sheet?: string) =>
  inFolder((folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    if (sheet !== undefined) writeFileSync(join(folder, 'shape.svg'), sheet);
    return runShell(`set -e; ${script}`, { cwd: folder });
  });

const TWICE =
  'staywright true -q first.svg > second.svg; cmp first.svg second.svg; staywright walk -q --tolerance 0.06mm first.svg';

describe('a second run of true writes the same bytes as the first', () => {
  it.each(allShapes.flatMap((shape) => [false, true].map((flip) => [shape().name, flip, shape] as const)))(
    'on %s panels, mirrored %s',
    async (_name, flip, shape) => {
      const [one, other] = flip ? [mirrored(shape()), shape()] : [shape(), mirrored(shape())];
      const pattern = patternOf(askew(one, 'front', ['cf', 'side'], 3), askew(other, 'back', ['side', 'cb'], -2));
      const ran = await run(`staywright true -q shape.svg > first.svg; ${TWICE}`, writeSheet({ pattern, record: [] }));
      expect(ran).toMatchObject({ code: 0, stderr: '' });
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
    const ran = await run(`staywright ${command} -q | staywright true -q > first.svg; ${TWICE}`);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
  });
});

it('a sheet that is true already comes out as it went in, its record too', async () => {
  const ran = await run(
    'staywright true -q net.svg > first.svg; staywright true first.svg > second.svg; cmp first.svg second.svg',
  );
  expect(ran).toMatchObject({ code: 0, stderr: 'true:\nNothing to true: every seam already matches.\n' });
});

it('walk passes the sheet on as it was', async () => {
  const ran = await run(
    'staywright true -q net.svg > first.svg; staywright walk -q --through first.svg > second.svg; cmp first.svg second.svg',
  );
  expect(ran).toMatchObject({ code: 0 });
});

it('walk ends with 1 on a finding, and passes the sheet on all the same', async () => {
  const ran = await run('staywright walk net.svg --through > second.svg || echo "ended with $?"; tail -1 second.svg');
  expect(ran.stdout).toBe('ended with 1\n</svg>\n');
  expect(ran.stderr).toMatch(/^walk:\n[^]*4 things to true: 4 peaks or dips\.\n$/);
});

describe('of seams that are named', () => {
  it('true and walk speak of those alone', async () => {
    const ran = await run(
      'staywright true net.svg --seam cb -n; staywright true net.svg -q --seam front-side | staywright walk --seam front-side | tail -1',
    );
    expect(ran.stderr).toMatch(/\ncb has one edge, so there is nothing to true along it\.\n$/);
    expect(ran.stdout).toBe('front-side matches within 1.60 mm.\n');
  });

  it('an edge to keep must be of one of them', async () => {
    const ran = await run('staywright true net.svg --seam side-back --keep front-side:front');
    expect(ran).toMatchObject({
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
  const ran = await run(
    'staywright true shape.svg -n; staywright true -q shape.svg | staywright walk --tolerance 0mm',
    sheet,
  );
  expect(ran.code).toBe(0);
  expect(ran.stderr).not.toMatch(/grows at the top|, now \d/);
  expect(ran.stderr).toMatch(/\n\d edges change by less than 0\.40 mm\n/);
  expect(ran.stdout).toMatch(/\nEvery seam matches within 0\.00 mm\.\n$/);
});
