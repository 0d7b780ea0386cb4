/** Whatever is wrong with what was typed or read ends in one clear line, exit 2 or 3, and nothing written. */
import assert from 'node:assert/strict';
import { cpSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runMain } from '../support/run-main.ts';
import { inFolder, runStaywright } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

const svg = (body: string, attributes = 'width="500mm" height="400mm" viewBox="0 0 500 400"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${body}</svg>`;

const LABEL = ['label', 'in.svg', '--line', 'stitching', '--panels', 'front', '--seams', 'cf,cb'];

const PANEL = '<path id="front" d="M20 20 H120 V320 H20 Z"/><path id="waist" d="M10 200 H130"/>';

interface BadCase {
  readonly says: string;
  readonly words: readonly string[];
  /** Written as `in.svg` first. */
  readonly input?: string | Uint8Array;
  readonly code?: 2 | 3;
  readonly message: RegExp;
}

const drawings: readonly BadCase[] = [
  { says: 'an empty file', input: '', words: LABEL, message: /in\.svg: the file is empty/ },
  { says: 'a file of blanks', input: ' \n\n', words: LABEL, message: /in\.svg: the file is empty/ },
  {
    says: 'a truncated file',
    input: svg(PANEL).slice(0, 120),
    words: LABEL,
    message: /in\.svg:1:\d+: not well-formed/,
  },
  { says: 'a binary file', input: Buffer.from([0, 1, 2, 255, 254, 0, 7]), words: LABEL, message: /in\.svg: / },
  { says: 'a picture', input: Buffer.from('89504e470d0a1a0a', 'hex'), words: LABEL, message: /a PNG picture/ },
  {
    says: 'an entity bomb',
    input: `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 9 }, (_, n) => `<!ENTITY ${'bcdefghij'[n]} "${`&${'abcdefghi'[n]};`.repeat(10)}">`).join('')}]>${svg('<text>&j;</text>')}`,
    words: LABEL,
    message: /in\.svg:\d+:\d+: .*entit/i,
  },
  {
    says: 'an outside entity',
    input: `<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>${svg('<text>&x;</text>')}`,
    words: LABEL,
    message: /in\.svg:\d+:\d+: .*entit/i,
  },
  {
    says: 'elements nested 5,000 deep',
    input: svg(`${'<g>'.repeat(5000)}${PANEL}${'</g>'.repeat(5000)}`),
    words: LABEL,
    message: /in\.svg:1:\d+: .*deep/,
  },
  {
    says: 'a number that is none',
    input: svg('<path id="front" d="M NaN 20 H120 V320 H20 Z"/>'),
    words: LABEL,
    message: /in\.svg:1:\d+: /,
  },
  {
    says: 'a number without end',
    input: svg('<path id="front" d="M 1e400 20 H120 V320 H20 Z"/>'),
    words: LABEL,
    message: /in\.svg:1:\d+: /,
  },
  {
    says: 'an outline whose ends lie a little too far apart',
    input: svg('<path d="M20 20 H120 V320 H20 V20.6"/><path id="waist" d="M10 200 H130"/>'),
    words: LABEL,
    message:
      /0 outlines but 1 panel name \(front\).*\n.*in\.svg:1:\d+: this line is not closed: its ends lie 0\.60 mm apart/,
  },
  {
    says: 'an outline that does not close',
    input: svg('<path id="front" d="M20 20 H120 V320 H30"/><path id="waist" d="M10 200 H130"/>'),
    words: LABEL,
    message: /clos|outline/,
  },
  {
    says: 'an outline that crosses itself',
    input: svg('<path id="front" d="M20 20 L120 320 H20 L120 20 Z"/><path id="waist" d="M10 200 H130"/>'),
    words: LABEL,
    message: /crosses itself at 70,170/,
  },
  {
    says: 'outlines that overlap',
    input: svg(`${PANEL}<path id="side" d="M100 20 H220 V320 H100 Z"/>`),
    words: ['label', 'in.svg', '--line', 'stitching', '--panels', 'front,side', '--seams', 'cf,x,cb'],
    message: /overlaps the outline/,
  },
  {
    says: 'a waist that misses its panel',
    input: svg(PANEL),
    words: [...LABEL, '--level', 'waist=front:400mm'],
    message: /panel front: the waist lies above or below the panel\n {2}hint: .*--level waist=front:210mm/,
  },
  {
    says: 'a test square without a side',
    input: svg(`${PANEL}<rect x="300" y="20" width="25" height="25"/>`),
    words: [...LABEL, '--test-square', '0mm'],
    message: /--test-square: 0mm is no side of a square/,
  },
  {
    says: 'a drawing without an outline',
    input: svg('<text>no pattern</text>'),
    words: LABEL,
    message: /no .*outline|outline/,
  },
  {
    says: 'another XML file',
    input: '<html xmlns="http://www.w3.org/1999/xhtml"/>',
    words: LABEL,
    message: /this is <html>, not <svg>/,
  },
  {
    says: 'a plain drawing where a sheet is wanted',
    input: svg(PANEL),
    words: ['girth', 'in.svg'],
    message: /plain drawing.*\n {2}hint: .*label/,
  },
];

const typed: readonly BadCase[] = [
  {
    says: 'a mistyped command',
    words: ['take-inn'],
    message: /take-inn: there is no such command\n {2}hint: did you mean take-in\?/,
  },
  { says: 'a command from nowhere', words: ['embroider'], message: /no such command\n {2}hint: staywright help lists/ },
  {
    says: 'a mistyped option',
    words: ['take-in', 'net.svg', '--seam', 'cb', '--ammount', '1mm'],
    message: /--ammount: there is no such option\n {2}hint: did you mean --amount\?/,
  },
  {
    says: 'an option without its value',
    words: ['take-in', 'net.svg', '--seam', 'cb', '--amount'],
    message: /--amount: a value is missing/,
  },
  {
    says: 'a length in two words',
    words: ['take-in', 'net.svg', '--seam', 'cb', '--amount', '6', 'mm'],
    message: /--amount: '6 mm' is more than one word\n {2}hint: write 6mm, without the space/,
  },
  {
    says: 'a length in two words, to a pipe',
    words: ['take-in', '--seam', 'cb', '--amount', '6', 'mm'],
    message: /--amount: '6 mm' is more than one word\n {2}hint: write 6mm, without the space/,
  },
  {
    says: 'a length in three words',
    words: ['gap', 'net.svg', '--body', 'waist=28in', '--reduction', 'waist=1', '1/2', 'in'],
    message: /--reduction: 'waist=1 1\/2 in' is more than one word\n {2}hint: write waist=1-1\/2in, without the space/,
  },
  {
    says: 'a part of a width in hundredths',
    words: ['gusset', 'net.svg', '--panel', 'side', '--slit', 'waist-30mm:40', '--width', '5cm'],
    message: /--slit: the part is from 0 \(front\) to 1 \(back\), not 40\n {2}hint: write --slit waist-30mm:0\.4/,
  },
  {
    says: 'a mistyped seam',
    words: ['take-in', 'net.svg', '--seam', 'side-bakc', '--amount', '1mm'],
    message: /no seam is called side-bakc\n {2}hint: did you mean side-back\?/,
  },
  {
    says: 'a mistyped level',
    words: ['girth', 'net.svg', '--level', 'wiast'],
    message: /no level is called wiast\n {2}hint: did you mean waist\?/,
  },
  {
    says: 'a level misspelt by two letters',
    words: ['take-in', 'net.svg', '--seam', 'cb', '--amount', '1mm', '--above', 'waste'],
    message: /no level is called waste\n {2}hint: did you mean waist\?/,
  },
  {
    says: 'a length for a level',
    words: 'label drawn.svg --line cutting --panels front,side,back --seams a,b,c,d --level bust=12cm'.split(' '),
    message: /--level: '12cm' is a length, not a level\n {2}hint: .*waist\+12cm/,
  },
  {
    says: 'shares without their seams',
    words: ['take-in', 'net.svg', '--seam', 'cb,side-back', '--girth', '2cm', '--share', '2,1'],
    message: /--share: '2' names nothing\n {2}hint: write it like cb=4,side=1/,
  },
  {
    says: 'a mistyped edge',
    words: ['add-allowance', 'net.svg', '--allowance', '15mm', '--allowance', 'tpo=6mm'],
    message: /'tpo'\n {2}hint: did you mean top\?/,
  },
  {
    says: 'a mistyped panel',
    words: 'label drawn.svg --line cutting --panels front,side,back --seams a,b,c,d --flip frotn'.split(' '),
    message: /frotn.*\n {2}hint: did you mean front\?/,
  },
  {
    says: 'a mistyped file',
    words: ['girth', 'nett.svg'],
    message: /nett\.svg: there is no such file\n {2}hint: did you mean net\.svg\?/,
  },
  {
    says: 'too few panel names',
    words: 'label drawn.svg --line cutting --panels front,side --seams a,b,c'.split(' '),
    message: /front, side/,
  },
  {
    says: 'a wrong count of seam names',
    words: 'label drawn.svg --line cutting --panels front,side,back --seams a,b,c'.split(' '),
    message: /--seams: /,
  },
  {
    says: 'no word on which line is drawn',
    words: 'label drawn.svg --panels front,side,back --seams a,b,c,d'.split(' '),
    message: /--line: is not said\n {2}hint: .*cutting.*stitching/,
  },
  {
    says: 'a bare number',
    words: ['take-in', 'net.svg', '--seam', 'cb', '--amount', '0.5'],
    message: /--amount: '0\.5' has no unit\n {2}hint: say which unit: 0\.5cm, 0\.5in or 0\.5mm/,
  },
  {
    says: 'a bare number in a level',
    words: ['girth', 'net.svg', '--level', 'waist+2'],
    message: /--level: '2' has no unit/,
  },
  {
    says: 'amount and girth at once',
    words: ['take-in', 'net.svg', '--seam', 'cb', '--amount', '1mm', '--girth', '2mm'],
    message: /--girth: cannot go with --amount/,
  },
  {
    says: 'amount and an amount at a level',
    words: ['take-in', 'net.svg', '--seam', 'cb', '--amount', '1mm', '--at', 'waist=2mm'],
    message: /--at: cannot go with --amount/,
  },
  { says: 'no amount', words: ['let-out', 'net.svg', '--seam', 'cb'], message: /--amount: how much\?/ },
  {
    says: 'no seam',
    words: ['let-out', 'net.svg', '--amount', '1mm'],
    message: /--seam: which seam\?\n {2}hint: there are: cf, front-side, side-back, cb\n/,
  },
  { says: 'two sheets', words: ['girth', 'net.svg', 'cut.svg'], message: /cut\.svg: one sheet at a time/ },
  {
    says: 'a unit that is none',
    words: ['girth', 'net.svg', '--units', 'cm'],
    message: /--units: 'cm' is not mm or in/,
  },
  {
    says: 'panels that still carry allowance, measured',
    words: ['girth', 'cut.svg'],
    message: /still carry seam allowance\n {2}hint: .*strip-allowance/,
  },
  {
    says: 'an allowance larger than a panel',
    words: ['strip-allowance', 'cut.svg', '--allowance', '60mm'],
    code: 3,
    message: /too small for an allowance of 60\.00 mm\n {2}hint: .*the largest that works here is \d+(\.\d)?mm/,
  },
  {
    says: 'an amount too large',
    words: ['take-in', 'net.svg', '--seam', 'side-back', '--amount', '40mm'],
    code: 3,
    message: /panel side: .*\n {2}hint: the largest amount that works is 9\.9mm/,
  },
  {
    says: 'a body file that is not JSON',
    words: ['gap', 'net.svg', '--body', 'net.svg'],
    message: /net\.svg: is not JSON/,
  },
  {
    says: 'a body typed at a level that the pattern lacks',
    words: ['gap', 'net.svg', '--body', 'waist=28in,underbust=30in'],
    message: /no level is called underbust/,
  },
  { says: 'no body', words: ['gap', 'net.svg'], message: /--body: whose body\?/ },
  {
    says: 'pages into a folder',
    words: ['print', 'net.svg', '-o', 'pages/'],
    message: /-o: pages\/ does not end in \.pdf\n {2}hint: name it pages\/pattern\.pdf/,
  },
  {
    says: 'an output without a name',
    words: ['girth', 'net.svg', '-o', ''],
    message: /-o: no name does not end in \.svg\n {2}hint: name it pattern\.svg/,
  },
  { says: 'a mistyped paper', words: ['print', 'net.svg', '--paper', 'a44', '-o', 'x.pdf'], message: /a44/ },
  {
    says: 'a margin that leaves no paper',
    words: ['print', 'net.svg', '--margin', '200mm', '-o', 'x.pdf'],
    message: /margin/i,
  },
];

/** What was said, once it is sure that it was said as it should be and that nothing was written. */
const refused = ({ words, input, code = 2 }: BadCase): Promise<string> =>
  inFolder(async (folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    if (input !== undefined) writeFileSync(join(folder, 'in.svg'), input);
    const before = readdirSync(folder);
    const [command = '', ...rest] = words;
    const plain = words.includes('-o') || ['girth', 'check', 'gap', 'print'].includes(command);
    const ran = await runMain([command, ...(plain ? [] : ['-o', 'new.svg']), ...rest], { cwd: folder });
    assert.deepEqual({ code: ran.code, stdout: ran.stdout }, { code, stdout: '' }, ran.stderr);
    assert.deepEqual(readdirSync(folder), before);
    assert.match(ran.stderr, /^staywright[ :][^\n]*\n( {2}hint: [^\n]*\n)?$/);
    return ran.stderr;
  });

describe('a drawing that cannot be read ends in one line, exit 2, nothing written', () => {
  it.each(drawings)('$says', async (one) => {
    expect(await refused(one)).toMatch(one.message);
  });
});

describe('words that cannot be meant end in one line, exit 2 or 3, nothing written', () => {
  it.each(typed)('$says', async (one) => {
    expect(await refused(one)).toMatch(one.message);
  });
});

describe('a warning', () => {
  it('names its place in the file once', async () => {
    const ran = await runMain([...LABEL.map((word) => (word === 'in.svg' ? '-' : word)), '-n'], {
      stdin: svg(`${PANEL}<use href="#lost"/>`),
    });
    expect(ran.stderr).toMatch(/^warning: standard input:1:\d+: 'use' of '#lost', which is not in this drawing/m);
  });
});

describe('an error', () => {
  it('shows its stack only where STAYWRIGHT_DEBUG=1 asks for it', async () => {
    const ran = await runStaywright(['girth', 'missing.svg'], { env: { STAYWRIGHT_DEBUG: '1' } });
    expect(ran.stderr).toMatch(/\n {4}at /);
    expect(ran.code).toBe(2);
  });

  it('cannot move the cursor of a terminal by a name from a file', async () => {
    const ran = await runStaywright(['girth', 'a\u001b[2Jb.svg']);
    expect(ran.stderr).not.toContain('\u001b');
  });
});
