import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readSvg } from '../../src/svg/read-svg.ts';
import { runScript } from '../support/run-script.ts';
import { inFolder } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

/** The lengths and angles of `describe`, by what they are of. */
const figuresIn = (text: string): Map<string, number> =>
  new Map(
    text.split('\n').flatMap((line) => {
      const [, what, figure] = /^(.*): (?:length|angle) ([\d.]+)/.exec(line) ?? [];
      return what === undefined ? [] : [[what, Number(figure)]];
    }),
  );

const inInputs = (script: string) =>
  inFolder(async (folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    const ran = await runScript(script, { cwd: folder });
    const wrote = ran.code === 0 && script.includes('-o v2.svg') ? readFileSync(join(folder, 'v2.svg'), 'utf8') : '';
    return { ...ran, wrote };
  });

describe('redraw-edge in a pipe', () => {
  it('lowers the back and nothing else, and the next command reads what it wrote', async () => {
    const before = await inInputs('staywright describe net.svg --units mm');
    const after = await inInputs(
      'staywright redraw-edge net.svg --edge top --at side-back=0mm --at cb=-10mm -q | staywright describe --units mm',
    );
    expect(after).toMatchObject({ code: 0, stderr: '' });
    const [was, is] = [figuresIn(before.stdout), figuresIn(after.stdout)];
    expect([...is.keys()]).toEqual([...was.keys()]);
    const changed = [...was].filter(([what, figure]) => is.get(what) !== figure).map(([what]) => what);
    expect(changed).toEqual(['panel back, edge top', 'panel back, edge cb']);
    expect(is.get('panel back, edge cb')! - was.get('panel back, edge cb')!).toBeCloseTo(-10, 2);
  });

  it('is undone by the opposite amounts', async () => {
    const before = await inInputs('staywright describe net.svg --units mm');
    const again = await inInputs(
      `staywright redraw-edge net.svg --edge bottom --at side-back=8mm -q |
       staywright redraw-edge --edge bottom --at side-back=-8mm -q | staywright describe --units mm`,
    );
    const [was, is] = [figuresIn(before.stdout), figuresIn(again.stdout)];
    for (const [what, figure] of was) expect(Math.abs(is.get(what)! - figure)).toBeLessThan(0.06);
  });

  it('says so where it moved less than a report shows', async () => {
    const { code, stderr } = await inInputs('staywright redraw-edge net.svg --edge top --at cb=0.001mm -n');
    expect(code).toBe(0);
    expect(stderr.trimEnd().split('\n').at(-1)).toBe('Top moved by less than this report shows.');
  });

  it('is recorded as it was meant, and draws the cutting line again', async () => {
    const { code, wrote } = await inInputs(
      `staywright add-allowance net.svg --allowance 15mm -q |
       staywright redraw-edge --at cb=-6mm,side-back=0mm --edge top -q -o v2.svg`,
    );
    expect(code).toBe(0);
    const reading = readSvg(wrote, 'sheet');
    if (reading.kind !== 'sheet') throw new Error('not a sheet');
    expect(reading.sheet.record.at(-1)!.command).toBe('redraw-edge --edge top --at cb=-6mm,side-back=0mm');
    expect(reading.sheet.pattern.panels.every(({ cutting }) => cutting !== undefined)).toBe(true);
  });
});
