import { cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { inFolder, runShell } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

const inInputs = (script: string) =>
  inFolder(async (folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    const ran = await runShell(`set -e\n${script}`, { cwd: folder });
    const file = (name: string): string => {
      const path = join(folder, `${name}.svg`);
      return existsSync(path) ? readFileSync(path, 'utf8') : '';
    };
    return { ...ran, file: { net: file('net'), split: file('split'), one: file('one') } };
  });

/** The lines of one panel of a sheet, without where it stands on it. */
const panelLines = (sheet: string, name: string): string =>
  (sheet.split(`<g id="${name}"`)[1] ?? '').split('\n  </g>')[0]!.replace(/transform="[^"]*"/, '');

const girthOf = (json: string, level: string): number =>
  (JSON.parse(json) as { levels: { level: string; girth_mm: number }[] }).levels.find((row) => row.level === level)!
    .girth_mm;

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
    const edges = (sheet: string, panel: string): string[] =>
      [...panelLines(sheet, panel).matchAll(/<path data-kind="edge"[^>]*d="([^"]+)"/g)].map(([, d]) => d!);
    for (const panel of ['front', 'side', 'back']) {
      expect(edges(file.split, `${panel}-left`)).toEqual(edges(file.net, panel));
      expect(edges(file.split, `${panel}-left`)).toHaveLength(4);
    }
  });

  it('changes the girth by one side’s lines alone, and one side after the other is both at once', async () => {
    const { stdout } = await inInputs(`
      staywright split-sides net.svg -q -o split.svg
      staywright girth split.svg --json > a.json
      staywright let-out --side right --seam side-back --amount 6mm split.svg -q | staywright girth --json > b.json
      staywright let-out --side right --seam side-back --amount 6mm split.svg -q |
        staywright let-out --side left --seam side-back --amount 6mm -q -o one.svg
      staywright girth one.svg --json > c.json
      staywright let-out --seam side-back --amount 6mm split.svg -q -o two.svg
      grep -v '^{' one.svg > one.txt; grep -v '^{' two.svg > two.txt; cmp one.txt two.txt
      cat a.json; echo =; cat b.json; echo =; cat c.json`);
    const [a, b, c] = stdout.split('=\n');
    expect(girthOf(b!, 'waist') - girthOf(a!, 'waist')).toBeCloseTo(12, 2);
    expect(girthOf(c!, 'waist') - girthOf(a!, 'waist')).toBeCloseTo(24, 2);
  });

  it('writes the side into the record, so that it can be done again', async () => {
    const { file } = await inInputs(`
      staywright split-sides net.svg -q |
        staywright take-in --side left --seam cb --amount 5mm -q -o one.svg
      staywright split-sides net.svg -q > again.svg
      staywright take-in --seam cb --amount 5mm --side left again.svg -q > again2.svg
      cmp one.svg again2.svg`);
    expect(file.one).toContain('take-in --seam cb --amount 5mm --side left');
    expect(file.one).toContain('data-pieces="single"');
  });

  it('measures, passes the whole sheet on, prints and checks one side', async () => {
    const { code, stdout, stderr } = await inInputs(`
      staywright split-sides net.svg -q -o split.svg
      staywright girth --side left split.svg --through 2> left.txt | cmp - split.svg
      staywright girth --side left split.svg
      staywright gap --side right --body waist=340mm:352mm --gap 2in split.svg
      staywright check --side left split.svg
      staywright print --side left split.svg -q -o left.pdf
      staywright describe --side right split.svg | grep -c '^panel .*-left' || true`);
    expect(code, stderr).toBe(0);
    expect(stdout).toContain('left half');
    expect(stdout).not.toContain('round the body');
    expect(stdout).toContain('right half');
    expect(stdout).toMatch(/\n0\n$/);
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
    const wrong = async (words: string) => {
      const { code, stderr } = await inFolder(async (folder) => {
        cpSync(INPUTS, folder, { recursive: true });
        writeFileSync(
          join(folder, 'plain.svg'),
          '<svg xmlns="http://www.w3.org/2000/svg"><rect width="99" height="99"/></svg>',
        );
        return runShell(words, { cwd: folder });
      });
      return `${code} ${stderr.split('\n')[0]}`;
    };
    expect(await wrong('staywright take-in --side left --seam cb --amount 5mm net.svg > o.svg')).toMatch(
      /^2 staywright take-in: --side: the panels of .* are not split into left and right$/,
    );
    expect(await wrong('staywright strip-allowance --side left --allowance 9mm plain.svg > o.svg')).toMatch(
      /^2 .*not split into left and right$/,
    );
    expect(await wrong('staywright girth --side up net.svg')).toBe(
      "2 staywright girth: --side: 'up' is not left or right",
    );
    expect(await wrong('staywright split-sides --side left net.svg')).toMatch(/^2 .*there is no such option/);
  });
});
