import { readFileSync, writeFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { demoRun, type DemoRun } from './demo-run.ts';

const root = new URL('../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');
const UPDATE = process.env['UPDATE'] === '1';

let run: DemoRun;
beforeAll(() => {
  run = demoRun();
}, 90_000);

/** The commands of a script, without what is the same in all of them. */
const commandsOf = (script: string): string =>
  read(`examples/${script}`)
    .split('\n')
    .filter((line) => !/^(#|set -eu|\. )/.test(line))
    .join('\n')
    .trim();

/** The README with each marked block filled from the scripts and the run. */
const filled = (readme: string): string =>
  readme.replace(
    /<!-- (script|printed): (\S+) -->\n(?:\n```\w+\n[\s\S]*?\n```\n)?/g,
    (_, kind: string, name: string) => {
      const [language, text] = kind === 'script' ? ['sh', commandsOf(name)] : ['text', run.text(name).trimEnd()];
      return `<!-- ${kind}: ${name} -->\n\n\`\`\`${language}\n${text}\n\`\`\`\n`;
    },
  );

/** The file as it stands; under UPDATE=1 it is first rewritten, and the run fails so that nobody takes it for a pass. */
const standing = (path: string, wanted: string): string => {
  if (UPDATE && read(path) !== wanted) {
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

  it('shows the picture that the run draws', () => {
    const wanted = run.text('6-before-after.svg');
    expect(standing('docs/before-after.svg', wanted)).toBe(wanted);
  });

  it('names no figure of the example that the run, its scripts or its sources do not', () => {
    const readme = read('README.md');
    const prose = readme
      .slice(readme.indexOf('## The example'), readme.indexOf('## The commands'))
      .replace(/```[\s\S]*?```/g, '');
    const known = [
      run.printed,
      ...['01-label', '02-strip', '04-alter', '05-allowance-and-print'].map((name) => commandsOf(`${name}.sh`)),
    ]
      .concat(read('examples/drawn-pattern.svg').match(/to fit[^<]*/g)!)
      .join('\n');
    const figures = prose.match(/\d+(?:[./]\d+)? (?=(?:in|mm)\b)/g)!.map((text) => text.trim());
    expect(figures.length).toBeGreaterThan(3);
    const strange = figures.filter((figure) => !new RegExp(`(?<![\\d./])${figure}(?!\\d|[./]\\d)`).test(known));
    expect(strange).toEqual([]);
  });
});
