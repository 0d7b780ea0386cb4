// Bundles and runs the measurements: all of them, or those named on the command line.
import { build } from 'esbuild';
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { join } from 'node:path';

const here = fileURLToPath(new URL('.', import.meta.url));
const room = join(here, '../build/bench');
const known = readdirSync(here)
  .filter((file) => file.endsWith('.ts'))
  .map((file) => file.slice(0, -'.ts'.length));
const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !known.includes(name));

if (unknown.length > 0) {
  console.error(`no measurement called ${unknown.join(', ')}; there are: ${known.join(', ')}`);
  process.exitCode = 2;
} else {
  mkdirSync(room, { recursive: true });
  for (const name of asked.length > 0 ? asked : known) {
    const outfile = join(room, `${name}.mjs`);
    await build({
      entryPoints: [join(here, `${name}.ts`)],
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
      packages: 'external',
    });
    console.log(`\n# ${name}\n`);
    await import(pathToFileURL(outfile).href);
  }
  rmSync(room, { recursive: true, force: true });
}
