import { cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runScript } from '../support/run-script.ts';
import { inFolder, runShell } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

const inInputs = (script: string, run: typeof runShell | typeof runScript = runScript) =>
  inFolder(async (folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    const ran = await run(script, { cwd: folder });
    const file = (name: string): string => {
      const path = join(folder, `${name}.svg`);
      return existsSync(path) ? readFileSync(path, 'utf8') : '';
    };
    return { ...ran, file: { net: file('net'), split: file('split'), one: file('one'), two: file('two') } };
  });

/** The lines of one panel of a sheet, without where it stands on it. */
const panelLines = (sheet: string, name: string): string =>
  (sheet.split(`<g id="${name}"`)[1] ?? '').split('\n  </g>')[0]!.replace(/transform="[^"]*"/, '');

/** The characters of a panel's edges. */
const edges = (sheet: string, panel: string): string[] =>
  [...panelLines(sheet, panel).matchAll(/<path data-kind="edge"[^>]*d="([^"]+)"/g)].map(([, d]) => d!);

const girthOf = (json: string, level: string): number =>
  (JSON.parse(json) as { levels: { level: string; girth_mm: number }[] }).levels.find((row) => row.level === level)!
    .girth_mm;

/** The exit code and the first line of a run that is refused. */
const wrong = async (words: string, run: typeof runShell | typeof runScript = runScript) => {
  const { code, stderr } = await inFolder(async (folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    writeFileSync(
      join(folder, 'plain.svg'),
      '<svg xmlns="http://www.w3.org/2000/svg"><rect width="99" height="99"/></svg>',
    );
    return run(words, { cwd: folder });
  });
  return `${code} ${stderr.split('\n')[0]}`;
};

/** The lines of a sheet, but for those of its record. */
const withoutRecord = (sheet: string): string[] => sheet.split('\n').filter((line) => !line.startsWith('{'));

describe('work on one side', () => {
  it('leaves every panel of the other as it was, to the byte', async () => {
    const { code, file, stderr } = await inInputs(`
      staywright split-sides net.svg -q -o split.svg
      staywright let-out --side left --seam side-back --amount 6mm split.svg -q -o one.svg`);
    expect(stderr).toBe('');
    expect(code).toBe(0);
    for (const panel of ['front', 'side', 'back']) {
      expect(panelLines(file.one, `${panel}-right`)).toBe(panelLines(file.split, `${panel}-right`));
      expect(panelLines(file.split, `${panel}-right`).length).toBeGreaterThan(100);
    }
    expect(panelLines(file.one, 'side-left')).not.toBe(panelLines(file.split, 'side-left'));
  });

  it('keeps the characters of every left edge when a pattern is split', async () => {
    const { file } = await inInputs('staywright split-sides net.svg -q -o split.svg');
    for (const panel of ['front', 'side', 'back']) {
      expect(edges(file.split, `${panel}-left`)).toEqual(edges(file.net, panel));
      expect(edges(file.split, `${panel}-left`)).toHaveLength(4);
    }
  });

  it('changes the girth by one side’s lines alone, and one side after the other is both at once', async () => {
    const { code, file, stdout } = await inInputs(`
      staywright split-sides net.svg -q -o split.svg
      staywright girth split.svg --json > a.json
      staywright let-out --side right --seam side-back --amount 6mm split.svg -q | staywright girth --json > b.json
      staywright let-out --side right --seam side-back --amount 6mm split.svg -q |
        staywright let-out --side left --seam side-back --amount 6mm -q -o one.svg
      staywright girth one.svg --json > c.json
      staywright let-out --seam side-back --amount 6mm split.svg -q -o two.svg
      cat a.json b.json c.json`);
    expect(code).toBe(0);
    expect(withoutRecord(file.one)).toEqual(withoutRecord(file.two));
    const [a, b, c] = stdout.split(/(?<=^\}\n)/m);
    expect(girthOf(b!, 'waist') - girthOf(a!, 'waist')).toBeCloseTo(12, 2);
    expect(girthOf(c!, 'waist') - girthOf(a!, 'waist')).toBeCloseTo(24, 2);
  });

  it('writes the side into the record, so that it can be done again', async () => {
    const { code, file } = await inInputs(`
      staywright split-sides net.svg -q |
        staywright take-in --side left --seam cb --amount 5mm -q -o one.svg
      staywright split-sides net.svg -q > again.svg
      staywright take-in --seam cb --amount 5mm --side left again.svg -q > again2.svg
      cmp one.svg again2.svg`);
    expect(code).toBe(0);
    expect(file.one).toContain('take-in --seam cb --amount 5mm --side left');
    expect(file.one).toContain('data-pieces="single"');
  });

  it('passes the other side on where nothing had to be changed on this one', async () => {
    const { code, stderr } = await inInputs(`
      staywright split-sides net.svg -q | staywright true -q -o split.svg
      staywright true --side left split.svg -q | cmp - split.svg
      staywright true --side right split.svg -q | cmp - split.svg
      staywright splice split.svg split.svg --above waist --side left -q | cmp - split.svg
      staywright splice split.svg split.svg --above waist --side right -q | cmp - split.svg`);
    expect({ code, stderr }).toMatchObject({ code: 0 });
  });

  it('writes the command that keeps the waist for the side of the slashed panel', async () => {
    const { code, stdout, stderr } = await inInputs(
      `set -e
      staywright split-sides net.svg -q -o split.svg
      staywright girth split.svg --level waist --json > a.json
      staywright slash split.svg --panel side-right --from top --parallel --spread -4mm -o one.svg 2> told.txt
      grep '^  staywright' told.txt
      $(grep '^  staywright' told.txt) one.svg -q -o two.svg
      echo =
      cat a.json
      echo =
      staywright girth two.svg --level waist --json
      echo =
      staywright girth split.svg --level waist --side left --json
      echo =
      staywright girth two.svg --level waist --side left --json`,
      runShell,
    );
    expect({ code, stderr }).toMatchObject({ code: 0 });
    const [told, before, after, left, leftAfter] = stdout.split('=\n{').map((text, i) => (i === 0 ? text : `{${text}`));
    expect(told).toContain(' --side right');
    expect(girthOf(after!, 'waist')).toBeCloseTo(girthOf(before!, 'waist'), 1);
    expect(girthOf(leftAfter!, 'waist')).toBe(girthOf(left!, 'waist'));
  });

  it('says whose half the line is that was redrawn on one side', async () => {
    const { stderr } = await inInputs(`
      staywright split-sides net.svg -q -o split.svg
      staywright redraw-edge split.svg --edge top --at side-back=6mm --side left -o one.svg`);
    expect(stderr).toContain('Top line round the left half ');
    expect(stderr).not.toContain('round the body');
  });

  it('measures, passes the whole sheet on, prints and checks one side', async () => {
    const { code, stdout, stderr } = await inInputs(`
      staywright split-sides net.svg -q -o split.svg
      staywright girth --side left split.svg --through | cmp - split.svg
      staywright girth --side left split.svg
      staywright gap --side right --body waist=340mm:352mm --gap 2in split.svg
      staywright check --side left split.svg
      staywright print --side left split.svg -q -o left.pdf
      staywright describe --side right split.svg`);
    expect({ code, stderr }).toMatchObject({ code: 0 });
    expect(stdout).toContain('left half');
    expect(stdout).not.toContain('round the body');
    expect(stdout).toContain('right half');
    expect(stdout).toMatch(/^panel side-right/m);
    expect(stdout).not.toMatch(/^panel .*-left/m);
  });

  it('draws the measures of a right panel on the right panel', async () => {
    const { file } = await inInputs(`
      staywright split-sides net.svg -q -o split.svg
      staywright girth split.svg -q --level waist -o one.svg`);
    const level = /data-level="waist"[^>]*d="M (-?[\d.]+),/.exec(panelLines(file.one, 'side-right'))![1];
    const drawn = /<g class="measures">.*?d="M (-?[\d.]+) /.exec(panelLines(file.one, 'side-right'))![1];
    expect(Number(drawn)).toBeCloseTo(Number(level), 2);
  });

  it('is refused on pairs, on drawings and for other words than left and right', async () => {
    expect(await wrong('staywright take-in --side left --seam cb --amount 5mm net.svg > o.svg')).toMatch(
      /^2 staywright take-in: --side: the panels of .* are not split into left and right$/,
    );
    expect(await wrong('staywright strip-allowance --side left --allowance 9mm plain.svg > o.svg')).toMatch(
      /^2 .*not split into left and right$/,
    );
    expect(await wrong('staywright girth --side up net.svg')).toBe(
      "2 staywright girth: --side: 'up' is not left or right",
    );
    expect(
      await wrong(
        `
        staywright split-sides net.svg -q | awk '/id="[a-z]*-right"/ { off = 1 } !off; /^  <[/]g>/ { off = 0 }' > l.svg
        staywright true --side right l.svg > o.svg`,
        runShell,
      ),
    ).toMatch(/^2 staywright true: --side: .* has no panels of the right side$/);
    expect(
      await wrong(`staywright split-sides net.svg -q | sed 's/="single"/="pairs"/' | staywright girth`, runShell),
    ).toMatch(/^2 .*: panel front-left is of the left side, but the sheet is of pairs$/);
    expect(
      await wrong(
        `staywright split-sides net.svg -q | sed '/id="front-left"/s/ data-side="left"//' | staywright girth`,
        runShell,
      ),
    ).toMatch(/^2 .*: panel front-left has no data-side, though side-left has$/);
    expect(await wrong('staywright gap --body waist=345mm:355mm:3mm net.svg')).toBe(
      "2 staywright gap: --body: '345mm:355mm:3mm' is neither a girth nor left:right",
    );
    expect(await wrong('staywright gap --body waist=345mm:0mm net.svg')).toBe(
      '2 staywright gap: --body: waist of the body must be more than nothing',
    );
    expect(await wrong('staywright split-sides --side left net.svg')).toMatch(/^2 .*there is no such option/);
  });
});
