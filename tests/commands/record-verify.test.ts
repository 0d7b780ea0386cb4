import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordSheets, type RecordSheets } from '../support/record-sheets.ts';
import { runScript } from '../support/run-script.ts';

let sheets: RecordSheets;

beforeAll(async () => {
  sheets = await recordSheets();
});

afterAll(() => sheets.remove());

const run: RecordSheets['run'] = (words, stdin) => sheets.run(words, stdin);

/** The hash that each step of a sheet's record left. */
const hashes = async (name: string): Promise<string[]> => {
  const { stdout } = await run(`record ${name} --json`);
  return (JSON.parse(stdout) as { steps: { after: string }[] }).steps.map(({ after }) => after);
};

/** A sheet with one thing in it changed. */
const tampered = (name: string, from: string | RegExp, to: string): string => {
  const text = sheets.file(name);
  const changed = text.replace(from, () => to);
  expect(changed).not.toBe(text);
  sheets.write('tampered.svg', changed);
  return 'tampered.svg';
};

const last = (text: string): string => text.trimEnd().split('\n').at(-1)!;

describe('record --verify', () => {
  it('runs every step again, from the drawing and from any version, and finds all the same', async () => {
    const drawn = await run('record v3.svg --verify drawn.svg --other other.svg');
    expect(drawn).toMatchObject({ code: 0, stderr: '' });
    expect(drawn.stdout.split('\n').slice(0, 5)).toEqual([
      'step 1, label: same',
      'step 2, strip-allowance: same',
      'step 3, take-in: same',
      'step 4, splice: same',
      'step 5, add-allowance: same',
    ]);
    expect(last(drawn.stdout)).toMatch(/`x`: 5 steps run again, and the sheet is the same\.$/);
    const middle = await run('record v3.svg --verify v1.svg --other other.svg');
    expect(middle).toMatchObject({ code: 0 });
    expect(middle.stdout.split('\n').slice(0, 2)).toEqual(['step 4, splice: same', 'step 5, add-allowance: same']);
    // Allowance is no part of the shape: a sheet's own record tells which of two versions of one hash it is.
    const [cut, end] = [await run('record v3.svg --verify v2.svg'), await run('record v3.svg --verify v3.svg')];
    expect([cut.stdout.split('\n')[0], end.stdout.split(':')[1]]).toEqual([
      'step 5, add-allowance: same',
      ' 0 steps run again, and the sheet is the same.\n',
    ]);
    const json = JSON.parse((await run('record v1.svg --verify drawn.svg --json')).stdout) as Record<string, unknown>;
    expect(json).toMatchObject({ original: null, same: true, ends_with: (await hashes('v1.svg')).at(-1) });
    expect(json['steps']).toMatchObject([{ result: 'same' }, { result: 'same' }, { step: 3, result: 'same' }]);
  });

  it('names the first step that gives something else, with both hashes and the version that did it', async () => {
    const [, , made] = await hashes('v1.svg');
    const false1 = '1'.repeat(64);
    const hash = await run(
      `record ${tampered('v1.svg', `"after":"${made!}`, `"after":"${false1}`)} --verify drawn.svg`,
    );
    expect(hash.code).toBe(1);
    expect(hash.stdout).toContain(
      `step 3, take-in: differs\n  command   take-in --seam cb --amount 1/4in --above waist\n  recorded  ${false1}\n  now       ${made}\n`,
    );
    expect(last(hash.stdout)).toMatch(/: step 3, take-in, is the first that differs\.$/);

    const amount = await run(`record ${tampered('v3.svg', '--amount 1/4in', '--amount 3/8in')} --verify drawn.svg`);
    expect(amount.code).toBe(1);
    expect(amount.stdout).toMatch(/step 3, take-in: differs\n {2}command {3}take-in --seam cb --amount 3\/8in/);
    expect(amount.stdout).toMatch(/step 4, splice: not run\nstep 5, add-allowance: not run\n/);

    const older = sheets
      .file('v1.svg')
      .replaceAll(/"version":"[^"]+"/g, '"version":"0.0.9"')
      .replace(`"after":"${made!}`, `"after":"${false1}`);
    sheets.write('older.svg', older);
    expect((await run('record older.svg --verify drawn.svg')).stdout).toMatch(
      /\n {2}done by {3}staywright 0\.0\.9; this is \d/,
    );
  });

  it('names a step that cannot be done again, and why', async () => {
    const steps = [
      ['take-in --seam cb', 'take-out --seam cb', 'take-out: there is no such command'],
      ['--seam cb', '--seam nowhere', 'nowhere'],
      ['--seam cb', '--seem cb', '--seem: there is no such option'],
      ['take-in --seam cb', 'take-in v2.svg --seam cb', 'v2.svg: is no part of a record'],
      ['take-in --seam cb --amount 1/4in --above waist', 'print', 'print: makes no sheet'],
      ['--amount 1/4in', '--amount 40in', ''],
      ['--amount 1/4in', '--amount 1/4in | sh', 'its command was not recorded by staywright'],
    ] as const;
    for (const [from, to, reason] of steps) {
      const { code, stdout } = await run(`record ${tampered('v1.svg', from, to)} --verify drawn.svg`);
      expect({ to, code }).toEqual({ to, code: 1 });
      expect(stdout).toMatch(/\nstep 3, .*: cannot be done again\n {2}command .*\n {2}reason /);
      expect(stdout).toContain(reason);
      expect(last(stdout)).toMatch(/: step 3, [\w-]+, cannot be done again\.$/);
    }
    const alone = await run('record v3.svg --verify drawn.svg');
    expect(alone.code).toBe(1);
    expect(alone.stdout).toContain('which is not at hand');
    const unused = await run('record v1.svg --verify drawn.svg --other larger.svg');
    expect(unused).toMatchObject({ code: 0, stderr: 'warning: larger.svg: no step took parts of this sheet\n' });
  });

  it('finds the other parent among the versions of the chain itself', async () => {
    const script = 'staywright splice net-1.svg v1.svg --above bust -q > back.svg';
    await runScript(script, { cwd: sheets.folder });
    expect(await run('record back.svg --verify drawn.svg')).toMatchObject({ code: 0, stderr: '' });
  });

  it('tells a sheet that was changed by other means, at its end or between two steps', async () => {
    const byHand = tampered('v1.svg', /(?<=data-kind="level"[^>]*d="M )-?\d+/, '99');
    const end = await run(`record ${byHand} --verify drawn.svg`);
    expect(end.code).toBe(1);
    expect(end.stdout).toContain(`\n  left      ${(await hashes('v1.svg')).at(-1)}\n  the sheet `);
    expect(last(end.stdout)).toMatch(/: the sheet was changed by other means after its last step\.$/);
    await runScript('staywright add-allowance tampered.svg --allowance 9mm -q > later.svg', { cwd: sheets.folder });
    const later = await run('record later.svg --verify drawn.svg');
    expect(later.code).toBe(1);
    expect(last(later.stdout)).toMatch(/: before step 4, add-allowance, the sheet was changed by other means\.$/);
    const { stdout } = await run('record later.svg');
    expect(stdout).toMatch(/\n# Here [0-9a-f]{12} became [0-9a-f]{12} by other means,\n/);
    expect(stdout).toContain("\necho 'note: made without what was changed by other means' >&2\n");
    // From the sheet as it was changed nothing is missing.
    const since = await run(`record later.svg --since ${byHand}`);
    expect(since.stdout).not.toMatch(/\n# Here |without/);
    expect((await run(`record later.svg --verify ${byHand}`)).code).toBe(0);
  });

  it('keeps the side that a step was for', async () => {
    await runScript(
      `staywright split-sides v1.svg -q |
        staywright let-out --side right --seam side-back --amount 3mm -q |
        staywright take-in --side left --seam cb --amount 2mm -q > sides.svg`,
      { cwd: sheets.folder },
    );
    expect(sheets.file('sides.svg')).toContain('--side left');
    const { code, stdout } = await run('record sides.svg --verify v1.svg');
    expect({ code, lines: stdout.split('\n').filter((line) => line.endsWith(': same')).length }).toEqual({
      code: 0,
      lines: 3,
    });
  });

  it('does steps that were made apart and joined one after the other, and compares what they give together', async () => {
    await runScript(
      `staywright take-in v1.svg --seam front-side --amount 2mm -q > mine.svg
       staywright let-out v1.svg --seam cb --amount 3mm --below waist -q > theirs.svg
       staywright let-out mine.svg --seam cb --amount 3mm --below waist -q > both.svg`,
      { cwd: sheets.folder },
    );
    const line = (name: string): string =>
      sheets
        .file(name)
        .split('\n')
        .find((each) => /"step":4,/.test(each))!;
    const [mine, theirs] = [line('mine.svg'), line('theirs.svg')];
    const bothLine = sheets
      .file('both.svg')
      .split('\n')
      .find((each) => /"step":5,/.test(each))!;
    // As merging leaves it: the shape of both, and a line from each.
    sheets.write(
      'merged.svg',
      sheets.file('both.svg').replace(bothLine, () => theirs),
    );
    expect(sheets.file('merged.svg')).toContain(mine);
    const merged = await run('record merged.svg --verify drawn.svg');
    expect(merged.code).toBe(0);
    expect(merged.stdout).toContain('step 4, let-out: made apart, so that it is compared with those that follow\n');
    const theirsOn = await run('record merged.svg --verify theirs.svg');
    expect(theirsOn.code).toBe(0);
    expect(theirsOn.stdout.split('\n')[0]).toMatch(/^step 4, take-in: made apart/);

    await runScript('staywright take-in merged.svg --seam cf --amount 1mm -q > after.svg', { cwd: sheets.folder });
    expect((await run('record after.svg --verify drawn.svg')).code).toBe(0);
    // What was joined is a version too, known by its file and by its hash; and so is what each had before.
    const fromMerged = await run('record after.svg --verify merged.svg');
    expect([fromMerged.code, fromMerged.stdout.split('\n')[0]]).toEqual([0, 'step 5, take-in: same']);
    const { before } = JSON.parse(/^.*"step":5,.*$/m.exec(sheets.file('after.svg'))![0]) as { before: string };
    const since = async (version: string): Promise<string[]> =>
      (await run(`record after.svg --since ${version}`)).stdout.match(/(?<=^(?:start|step) )[a-z-]+(?= )/gm)!;
    expect([await since('merged.svg'), await since(before), await since('theirs.svg')]).toEqual([
      ['take-in'],
      ['take-in'],
      ['take-in', 'take-in'],
    ]);
    expect((await run('record merged.svg --verify merged.svg')).code).toBe(0);
    const wrong = tampered('after.svg', /--amount 3mm --below waist/, '--amount 4mm --below waist');
    const together = await run(`record ${wrong} --verify drawn.svg`);
    expect(together.code).toBe(1);
    expect(last(together.stdout)).toContain('the steps that were made apart give another shape together');
  });

  it('refuses what the record does not begin with, and one panel alone', async () => {
    const stranger = await run('record v1.svg --verify larger.svg');
    expect(stranger.code).toBe(2);
    expect(stranger.stderr).toMatch(
      /larger\.svg: is no version of .*: its hash is [0-9a-f]{12}\n {2}hint: give the plain drawing, or a sheet that is known here, such as\n {10}[0-9a-f]{12} {2}step 1: label /,
    );
    expect((await run('record v1.svg --verify nowhere.svg')).code).toBe(2);
    expect((await run('record v1.svg --verify answers.json')).code).toBe(2);
    expect((await run('record --verify -', sheets.file('v1.svg'))).stderr).toContain('holds one sheet, not two');
    const part = sheets.file('v1.svg').replace('data-sheet="1"', 'data-sheet="1" data-part="1/3"');
    sheets.write('part.svg', part);
    expect((await run('record part.svg --verify drawn.svg')).stderr).toContain(
      'one panel of 3\n  hint: verify the folder',
    );
    expect(await run('record v1.svg --verify -', sheets.file('net-1.svg'))).toMatchObject({ code: 0 });
  });
});
