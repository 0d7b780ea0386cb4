import { cpSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { runScript } from '../support/run-script.ts';
import { inFolder } from '../support/run-staywright.ts';

const INPUTS = fileURLToPath(new URL('../golden/inputs', import.meta.url));

it.each([
  ['no allowance was added', 'staywright print net.svg -o p.pdf', true],
  [
    'there is a cutting line',
    'staywright add-allowance net.svg --allowance 15mm -q | staywright print -o p.pdf',
    false,
  ],
])('print says that only stitching lines are printed where %s', async (_, script, said) => {
  const { code, stderr } = await inFolder((folder) => {
    cpSync(INPUTS, folder, { recursive: true });
    return runScript(script, { cwd: folder });
  });
  expect(code).toBe(0);
  expect(stderr.includes('\nstitching lines only: no allowance was added\n')).toBe(said);
});
