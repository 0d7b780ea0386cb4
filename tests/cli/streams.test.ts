/** Pipes that close, Ctrl-C, and terminals. */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runMain } from '../support/run-main.ts';
import { EXECUTABLE, inFolder, runShell, runStaywright } from '../support/run-staywright.ts';

const NET = fileURLToPath(new URL('../golden/inputs/net.svg', import.meta.url));

const hasScript = spawnSync('script', ['--version']).status === 0;

/** Runs shell text on a terminal of its own. */
const onTerminal = (line: string): Promise<{ code: number | null; shown: string }> =>
  inFolder(async (folder) => {
    const child = spawn('script', ['-qec', line, '/dev/null'], { cwd: folder, stdio: ['ignore', 'pipe', 'pipe'] });
    const shown: Buffer[] = [];
    child.stdout.on('data', (chunk: Buffer) => shown.push(chunk));
    const code = await new Promise<number | null>((done) => child.on('close', done));
    return { code, shown: Buffer.concat(shown).toString('utf8').replaceAll('\r\n', '\n') };
  });

const TOOL = `'${process.execPath}' '${EXECUTABLE}'`;

describe('a pipe', () => {
  it('that closes early ends the run quietly', async () => {
    const ran = await runShell(`staywright take-in '${NET}' --seam cb --amount 3mm -q | head -1`);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toMatch(/^<\?xml[^\n]*\n$/);
  });

  it('that is slow gets the whole of a long sheet', () =>
    inFolder(async (folder) => {
      const words = Array.from({ length: 5000 }, (_, at) => `<text x="${at}" y="0">much artwork</text>`).join('');
      writeFileSync(join(folder, 'long.svg'), readFileSync(NET, 'utf8').replace('</svg>', `<g>${words}</g></svg>`));
      const ran = await runShell('staywright take-in long.svg --seam cb --amount 3mm -q | (sleep 1; cat)', {
        cwd: folder,
      });
      expect(ran.stdout.length).toBeGreaterThan(200_000);
      expect(ran.stdout.endsWith('</svg>\n')).toBe(true);
    }));

  it('carries commands one after another, words apart from sheets', async () => {
    const ran = await runShell(
      `set -e; staywright take-in '${NET}' --seam cb --amount 3mm | staywright let-out --seam cb --amount 3mm | staywright girth --level waist`,
    );
    expect(ran.stdout).toMatch(/round the body {2}320\.60\n$/);
    expect(ran.stderr).toMatch(/^take-in:\n[^]*Taken in 6\.00 mm[^\n]*\nlet-out:\n[^]*Let out 6\.00 mm[^\n]*\n$/);
  });
});

describe('Ctrl-C', () => {
  it('while a sheet is awaited leaves nothing, exit 130 in a shell', () =>
    inFolder(async (folder) => {
      const script = `${TOOL} take-in --seam cb --amount 3mm -o '${join(folder, 'v2.svg')}' <&3 & pid=$!; sleep 1; kill -INT $pid; wait $pid; echo $?`;
      const ran = await runShell(`sleep 5 | { exec 3<&0; ${script}; exit; }`);
      expect(ran.stdout).toBe('130\n');
      expect(readdirSync(folder)).toEqual([]);
    }));

  it('at any moment of a run leaves all files or none, and no temporary one', () =>
    inFolder(async (folder) => {
      for (const wait of [50, 150, 250, 350, 450]) {
        const target = join(folder, `at-${wait}`);
        cpSync(NET, join(folder, 'net.svg'));
        const words = ['take-in', 'net.svg', '--seam', 'cb', '--amount', '3mm', '-q', '-o', `${target}/`];
        const child = spawn(process.execPath, [EXECUTABLE, ...words], { cwd: folder });
        const ended = new Promise((done) => child.on('close', done));
        setTimeout(() => child.kill('SIGINT'), wait);
        await ended;
        const left = readdirSync(folder).includes(`at-${wait}`) ? readdirSync(target).toSorted() : [];
        expect([[], ['back.svg', 'front.svg', 'print.pdf', 'side.svg']]).toContainEqual(left);
      }
    }));
});

describe('a terminal', () => {
  it.skipIf(!hasScript)('on standard input gets a short help, exit 2', async () => {
    const { code, shown } = await onTerminal(`${TOOL} take-in --seam cb --amount 3mm < /dev/tty`);
    expect(shown).toMatch(/^Usage: staywright take-in [^]*staywright help take-in says more\n$/);
    expect(code).toBe(2);
  });

  it.skipIf(!hasScript)('on standard output is spared the sheet', async () => {
    const { code, shown } = await onTerminal(`${TOOL} take-in '${NET}' --seam cb --amount 3mm`);
    expect(shown).not.toContain('<svg');
    expect(shown).toMatch(/Taken in 6\.00 mm[^]*nothing was written: add -o FILE\.svg/);
    expect(code).toBe(0);
  });
});

describe('help and version', () => {
  it('say the same under every name', async () => {
    const runs = await Promise.all(
      [
        ['help', 'girth'],
        ['girth', '-h'],
        ['girth', 'net.svg', '--help'],
      ].map((words) => runStaywright(words)),
    );
    expect(new Set(runs.map(({ stdout }) => stdout)).size).toBe(1);
  });

  it('fit 80 columns', async () => {
    const commands = (await runStaywright(['--help'])).stdout.matchAll(/^ {2}([a-z-]+) {2,}/gm);
    const helps = await Promise.all([...commands].map(([, name]) => runMain(['help', name!])));
    expect(helps.length).toBeGreaterThan(9);
    expect(helps.flatMap(({ stdout }) => stdout.split('\n')).filter((line) => line.length > 80)).toEqual([]);
  });

  it('give the version of the package', async () => {
    expect((await runStaywright(['--version'])).stdout).toMatch(/^staywright \d+\.\d+\.\d+\n$/);
  });
});
