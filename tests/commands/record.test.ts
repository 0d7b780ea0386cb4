import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { panelSheets } from '../../src/svg/panel-sheets.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import { recordSheets, type RecordSheets } from '../support/record-sheets.ts';
import { runMain } from '../support/run-main.ts';
import { runRecordScript, scriptCommands } from '../support/run-record-script.ts';
import { runScript } from '../support/run-script.ts';
import { EXECUTABLE } from '../support/run-staywright.ts';

let sheets: RecordSheets;

beforeAll(async () => {
  sheets = await recordSheets();
});

afterAll(() => sheets.remove());

const run: RecordSheets['run'] = (words, stdin) => sheets.run(words, stdin);

const file: RecordSheets['file'] = (name) => sheets.file(name);

const write: RecordSheets['write'] = (name, text) => sheets.write(name, text);

interface RecordJson {
  readonly original: string | null;
  readonly steps: readonly { step: number; command: string; before: string | null; after: string; other?: string }[];
  readonly ends_with: string;
}

const jsonOf = async (words: string): Promise<RecordJson> =>
  JSON.parse((await run(`${words} --json`)).stdout) as RecordJson;

/** Runs a script with the real shell and the real executable on its PATH. */
const shell = (words: readonly string[]): { code: number | null; stdout: string; stderr: string } => {
  const bin = join(sheets.folder, 'bin');
  mkdirSync(bin, { recursive: true });
  writeFileSync(join(bin, 'staywright'), `#!/bin/sh\nexec '${process.execPath}' '${EXECUTABLE}' "$@"\n`);
  chmodSync(join(bin, 'staywright'), 0o755);
  const env = { ...process.env, PATH: `${bin}:${process.env['PATH']}`, NO_COLOR: '1' };
  const { status, stdout, stderr } = spawnSync('sh', [...words], { cwd: sheets.folder, env, encoding: 'utf8' });
  return { code: status, stdout, stderr };
};

describe('record', () => {
  it('prints a script that makes the same sheet to the byte, with both parents of a splice', async () => {
    const { stdout, stderr, code } = await run('record v3.svg');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const { steps, original, ends_with: end } = await jsonOf('record v3.svg');
    const splice = steps[3]!;
    expect(original).toBeNull();
    expect(stdout.startsWith('#!/bin/sh\nset -eu\n# staywright record: the queen')).toBe(true);
    expect(stdout).toContain(`other_1="\${2:?which OTHER-1?}"`);
    expect(stdout).toContain(`#   ${splice.other}\n`);
    expect(stdout).toContain(`#   made of ${splice.before!.slice(0, 12)} and parts of ${splice.other!.slice(0, 12)}\n`);
    expect(stdout).toContain(`# The sheet has this hash now:\n#   ${end}\ncase `);
    expect(stdout.endsWith(`\nesac\nprintf '%s\\n' "$sheet"\n`)).toBe(true);
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);

    const made = await runRecordScript(stdout, sheets.folder, 'drawn.svg', ['other.svg']);
    const names = ['cut-1.svg', 'net-1.svg', 'v1.svg', 'v2.svg', 'v3.svg'];
    expect(made.map((text, at) => text === file(names[at]!))).toEqual([true, true, true, true, true]);
  });

  it('is run by sh, and stops at a step that fails with nothing that passes for a sheet', async () => {
    const { steps } = await jsonOf('record v2.svg');
    expect((await run(`record v2.svg --since ${steps[1]!.after} -o changes.sh`)).code).toBe(0);
    const { code, stdout, stderr } = shell(['changes.sh', 'net-1.svg', 'other.svg']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toBe(file('v2.svg'));

    write('failing.sh', file('changes.sh').replace('--seam cb', '--seam nowhere'));
    const failed = shell(['failing.sh', 'net-1.svg', 'other.svg']);
    expect({ code: failed.code, stdout: failed.stdout }).toEqual({ code: 2, stdout: '' });
    expect(failed.stderr).toMatch(/^staywright take-in: .*nowhere/);

    // The wrong size to splice from is made of all the same, but not without a word.
    const wrong = shell(['changes.sh', 'net-1.svg', 'larger.svg']);
    expect({ code: wrong.code, stderr: wrong.stderr }).toEqual({
      code: 0,
      stderr: 'note: not the sheet of the record: ORIGINAL or OTHER differs\n',
    });
    expect(wrong.stdout).toContain('data-sheet="1"');

    const missing = shell(['changes.sh', 'net-1.svg']);
    expect(missing.code).not.toBe(0);
    expect(missing.stdout).toBe('');
    expect(missing.stderr).toContain('which OTHER-1?');
  });

  it('tells what each step did round the body, in the units of the sheet or others', async () => {
    const { stdout } = await run('record v3.svg');
    const { stdout: mm } = await run('record v3.svg --units mm');
    const girth = async (name: string, level: string): Promise<number> => {
      const json = JSON.parse((await run(`girth ${name} --level ${level} --json`)).stdout) as {
        levels: { girth_mm: number }[];
      };
      return json.levels[0]!.girth_mm;
    };
    const [was, is] = [await girth('net-1.svg', 'bust'), await girth('v1.svg', 'bust')];
    expect(mm).toContain(`round the body:\n#   bust ${was.toFixed(2)} mm -> ${is.toFixed(2)} mm\n`);
    expect(stdout).toContain(`#   bust ${(was / 25.4).toFixed(3)} in (`);
    expect(stdout).toContain('; no girth can be measured yet\nstart label');
    expect(stdout).toMatch(/; no girth changed\nstep add-allowance/);
    expect(mm.replaceAll(/^#.*\n/gm, '')).toBe(stdout.replaceAll(/^#.*\n/gm, ''));
  });

  it('only gains lines with a further step, all after what was there but for its end', async () => {
    const short = (await run('record v1.svg')).stdout.split('\n');
    const long = (await run('record v3.svg')).stdout.split('\n');
    const ends = short.indexOf('# The sheet has this hash now:');
    const kept = short.slice(0, ends);
    let from = 0;
    for (const line of kept) {
      const at = long.indexOf(line, from);
      expect({ line, found: at >= 0 }).toEqual({ line, found: true });
      from = at + 1;
    }
    expect(kept.length).toBeGreaterThan(20);
  });

  it('goes through pipes and folders, and passes the sheet on', async () => {
    const piped = await runScript('staywright take-in v3.svg --seam cb --amount 2mm -q | staywright record', {
      cwd: sheets.folder,
    });
    expect(piped.stdout).toContain('\nstep take-in --seam cb --amount 2mm\n');
    const through = await run('record v3.svg --through');
    expect(through.stdout).toBe(file('v3.svg'));
    expect(through.stderr).toContain('record:\n#!/bin/sh\n');
    const reading = readSvg(file('v3.svg'), 'v3.svg');
    if (reading.kind !== 'sheet') throw new Error('no sheet');
    mkdirSync(join(sheets.folder, 'parts'));
    for (const { name, text } of panelSheets(reading.sheet)) write(`parts/${name}.svg`, text);
    const parts = await run('record parts/');
    expect(parts).toEqual(await run('record v3.svg'));
    const [panel] = (await run('record parts/front.svg')).stdout.split('# The sheet has');
    expect(parts.stdout.split('# The sheet has')[0]).toBe(panel);
    expect(await run('record parts/ --verify drawn.svg --other other.svg')).toMatchObject({ code: 0, stderr: '' });
    expect(await run('record v3.svg -q')).toEqual({ code: 0, stdout: '', stderr: '' });
  });

  it('replaces scripts of its own and no other file', async () => {
    write('mine.sh', '#!/bin/sh\necho mine\n');
    const refused = await run('record v1.svg -o mine.sh');
    expect(refused).toMatchObject({ code: 2, stdout: '' });
    expect(refused.stderr).toContain('mine.sh: was not written by staywright');
    expect(file('mine.sh')).toBe('#!/bin/sh\necho mine\n');
    expect((await run('record v1.svg -o mine.sh --force')).code).toBe(0);
    expect(file('mine.sh')).toBe((await run('record v1.svg')).stdout);
    expect((await run('record v3.svg -o mine.sh')).stderr).toContain('wrote mine.sh');
    expect(statSync(join(sheets.folder, 'mine.sh')).size).toBeGreaterThan(1000);
    expect((await run('record v1.svg -o mine.txt')).stderr).toContain('mine.txt does not end in .sh');
  });

  it('asks for a record, and warns of a sheet that was changed by other means', async () => {
    write('bare.svg', file('v1.svg').replace(/ {2}<metadata[^]*<\/metadata>\n/, ''));
    const bare = await run('record bare.svg');
    expect(bare.code).toBe(2);
    expect(bare.stderr).toContain('holds no record of changes\n  hint: a drawing program may have dropped it');
    write('by-hand.svg', file('v1.svg').replace(/(data-kind="level"[^>]*d="M )(-?\d+)/, '$199'));
    const byHand = await run('record by-hand.svg');
    expect(byHand.code).toBe(0);
    expect(byHand.stderr).toMatch(
      /^warning: .*: is not what step 3, take-in, left: it was changed by other means since\n/,
    );
    expect(byHand.stdout).toBe((await run('record v1.svg')).stdout);
    const notes = async (name: string): Promise<string[]> =>
      (await run(`check ${name}`)).stdout.split('\n').filter((line) => line.startsWith('note: '));
    expect(await notes('by-hand.svg')).toEqual([
      expect.stringMatching(/: is not what step 3, take-in, left: it was changed by other means since$/),
    ]);
    expect(await notes('v1.svg')).toEqual([]);
    expect(await notes('cut-1.svg')).not.toContainEqual(expect.stringContaining('record'));
    expect(await notes('bare.svg')).toEqual([
      expect.stringMatching(/: holds no record of changes: its history was lost, and record cannot tell or verify it$/),
    ]);
    expect((await run('check bare.svg')).code).toBe((await run('check v1.svg')).code);
  });

  it('reads the record of a sheet whose line ends another program has turned into blanks', async () => {
    write(
      'one-line.svg',
      file('v3.svg').replace(/<metadata[^]*<\/metadata>/, (all) => all.replaceAll('\n', ' ')),
    );
    expect(await run('record one-line.svg')).toEqual(await run('record v3.svg'));
  });

  it('does not mind where panels lie on the sheet', async () => {
    const moved = file('v1.svg')
      .replaceAll(
        /translate\(([^,]+),([^)]+)\)/g,
        (_, x: string, y: string) => `translate(${Number(x) + 31.5},${Number(y) + 7})`,
      )
      .replace(/(<g id="front")/, '<g id="layer" transform="translate(5,-3)">$1')
      .replace('</svg>', '</g></svg>');
    write('moved.svg', moved);
    const ran = await run('record moved.svg');
    expect(ran).toEqual(await run('record v1.svg'));
    expect(await run('record moved.svg --verify drawn.svg')).toMatchObject({ code: 0 });
    expect(await run('record v1.svg --verify moved.svg')).toMatchObject({ code: 0 });
  });

  it('quotes names in any script, and lets nothing of a record out of its line', async () => {
    const odd = "\\u000arm -rf x\\u2028 日 ' $(x)";
    write('odd.svg', file('net-1.svg').replace(/data-name="[^"]*"/, 'data-name="a&#10;touch x&#13;ต้นแบบ"'));
    const { stdout } = await run('record odd.svg');
    expect(stdout.split('\n')[2]).toBe('# staywright record: a touch x ต้นแบบ');
    for (const [bad, says] of [
      ['take-in --seam cb; touch x', 'its command was not recorded by staywright'],
      ['take-in $(touch x)', 'its command was not recorded by staywright'],
      [`take-in ${odd}`, 'its command was not recorded by staywright'],
      ['take-in --seam cb --amount 1mm -o x.svg', 'its command was not recorded by staywright'],
      ['--version', 'its command was not recorded by staywright'],
    ]) {
      write(
        'bad.svg',
        file('v1.svg').replace(/"command":"take-in[^"]*"/, () => `"command":"${bad}"`),
      );
      const ran = await run('record bad.svg');
      expect({ bad, code: ran.code, stdout: ran.stdout }).toEqual({ bad, code: 2, stdout: '' });
      expect(ran.stderr).toContain(says);
    }
  });

  it('leaves out what only drew measures', async () => {
    expect((await run('girth v1.svg -q -o drawn-on.svg')).code).toBe(0);
    const { stdout } = await run('record drawn-on.svg');
    expect(stdout).toContain('# nothing to run: girth drew its measures\n');
    expect(scriptCommands(stdout, 'drawn.svg')).toHaveLength(3);
    expect((await run('record drawn-on.svg --verify drawn.svg')).stdout).toContain('step 4, girth: drew its measures');
    const rest = await run('record drawn-on.svg --since v1.svg');
    expect(await runRecordScript(rest.stdout, sheets.folder, 'v1.svg')).toEqual([file('v1.svg')]);
  });

  it('keeps the name of a pattern without blanks round it, so that the name comes back too', async () => {
    const words = ['label', 'drawn.svg', '--line', 'stitching', '--panels', 'front,side,back', '-q', '-o', 'named.svg'];
    const seams = ['--seams', 'cf,front-side,side-back,cb', '--name', ' the  queen '];
    expect((await runMain([...words, ...seams], { cwd: sheets.folder })).code).toBe(0);
    expect(file('named.svg')).toContain(' data-name="the  queen"');
    const { stdout } = await run('record named.svg');
    expect(await runRecordScript(stdout, sheets.folder, 'drawn.svg')).toEqual([file('named.svg')]);
    const blank = await runMain([...words, ...seams.slice(0, 3), ' '], { cwd: sheets.folder });
    expect(blank).toMatchObject({ code: 2, stderr: expect.stringContaining('--name: holds no name') as string });
  });

  it('says in inches again what was stripped of a plain drawing in inches', async () => {
    write(
      'plain.svg',
      '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="400mm" viewBox="0 0 300 400"><path d="M20 20L120 25L115 380L25 380Z"/></svg>',
    );
    expect((await run('strip-allowance plain.svg --allowance 15mm --units in -q -o plain-net.svg')).code).toBe(0);
    const { stdout } = await run('record plain-net.svg');
    expect(await runRecordScript(stdout, sheets.folder, 'plain.svg')).toEqual([file('plain-net.svg')]);
  });
});

describe('record --since', () => {
  it('starts from the version with a hash, and its script makes the sheet from that', async () => {
    const { steps } = await jsonOf('record v3.svg');
    const hash = steps[1]!.after.slice(0, 7);
    const { stdout } = await run(`record v3.svg --since ${hash}`);
    expect(stdout).toContain(`# ORIGINAL is the sheet with this hash, which step 2 made:\n#   ${steps[1]!.after}\n`);
    const made = await runRecordScript(stdout, sheets.folder, 'net-1.svg', ['other.svg']);
    expect(made.at(-1)).toBe(file('v3.svg'));
    expect((await jsonOf(`record v3.svg --since ${hash}`)).steps).toEqual(steps.slice(2));
  });

  it('takes another sheet for the last version that both share, and says which that is', async () => {
    const { steps } = await jsonOf('record v3.svg');
    const { stdout, stderr } = await run('record v3.svg --since other.svg');
    expect(stderr).toBe(
      `note: other.svg: the last version that both records share is step 2, strip-allowance, ${steps[1]!.after.slice(0, 12)}\n`,
    );
    expect(scriptCommands(stdout, 'x', ['y']).map(([name]) => name)).toEqual(['take-in', 'splice', 'add-allowance']);
    const larger = await run('record v3.svg --since larger.svg');
    expect(larger.stderr).toContain('larger.svg shares no version with');
  });

  it('has no script where nothing was done since, and says so', async () => {
    const [, , { after }] = (await jsonOf('record v1.svg')).steps as [unknown, unknown, { after: string }];
    const says = `no command was run since step 3, take-in, ${after.slice(0, 12)}, so that there is no script\n`;
    for (const since of ['v1.svg', after.slice(0, 8)]) {
      const { code, stdout, stderr } = await run(`record v1.svg --since ${since} -o none.sh`);
      expect({ code, stdout }).toEqual({ code: 0, stdout: '' });
      expect(stderr).toMatch(/^note: [^\n]*\n$/);
      expect(stderr.endsWith(says)).toBe(true);
    }
    expect(existsSync(join(sheets.folder, 'none.sh'))).toBe(false);
    expect(await jsonOf(`record v1.svg --since ${after}`)).toMatchObject({ steps: [], ends_with: after });
  });

  it('refuses what is too short, unknown or no file, and names the last versions', async () => {
    expect((await run('record v3.svg --since abc')).stderr).toContain("'abc' is too short for a hash");
    const unknown = await run('record v3.svg --since 1402421');
    expect({ code: unknown.code, stdout: unknown.stdout }).toEqual({ code: 2, stdout: '' });
    const [message, hint, ...versions] = unknown.stderr.trimEnd().split('\n');
    expect(message).toMatch(/--since: no version of this record begins with 1402421$/);
    expect(hint).toContain("git's own hashes are others: git show 1402421:FILE.svg > before.svg");
    // The shape after step 5 is that of step 4, which added no allowance yet.
    const { steps } = await jsonOf('record v3.svg');
    expect(versions).toEqual(
      steps
        .slice(0, 4)
        .map(({ step, command, after }) =>
          expect.stringContaining(`  ${after.slice(0, 12)}  step ${step}: ${command.slice(0, 20)}`),
        ),
    );
    expect(Math.max(...versions.map((line) => line.length))).toBeLessThanOrEqual(80);
    const branch = await run('record v3.svg --since base');
    expect(branch).toMatchObject({ code: 2, stdout: '' });
    expect(branch.stderr).toMatch(
      /--since: base is neither a hash nor a file\n.*git show base:FILE\.svg > before\.svg\n$/,
    );
    expect((await run('record v3.svg --since nowhere.svg')).stderr).toContain('nowhere.svg: ');
    expect((await run('record v3.svg --since v1.svg --verify drawn.svg')).stderr).toContain('cannot go with --verify');
    expect((await run('record v3.svg --other other.svg')).stderr).toContain('--other: goes with --verify');
  });
});
