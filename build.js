// Bundles src into dist: one small entry, one chunk for each command. The small libraries that every run needs are bundled
// too, because opening a file costs more than running it; the large ones stay imports and are loaded by the commands that need them.
import { build } from 'esbuild';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

const BUNDLED = new Set(['@commander-js/extra-typings', 'commander', 'saxes', 'svgson']);
const { dependencies, version: ours } = JSON.parse(readFileSync('package.json', 'utf8'));
const next = `build/dist-${process.pid}`;

/** @type {import('esbuild').BuildOptions} */
const options = {
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  external: Object.keys(dependencies).filter((name) => !BUNDLED.has(name)),
  // Libraries in the older module format ask for Node's own modules by `require`.
  banner: { js: "import{createRequire as requireFrom}from'node:module';const require=requireFrom(import.meta.url);" },
  logLevel: 'warning',
};

const { metafile } = await build({
  ...options,
  entryPoints: ['src/main.ts'],
  outdir: next,
  splitting: true,
  minifySyntax: true,
  minifyWhitespace: true,
  metafile: true,
  chunkNames: 'parts/[name]-[hash]',
});

writeFileSync(`${next}/third-party-licenses.txt`, licensesOf(Object.keys(metafile.inputs)));
mkdirSync(`${next}/man`);
writeFileSync(`${next}/man/staywright.1`, await manPage());
mkdirSync('dist', { recursive: true });
renameSync('dist', `${next}-old`);
renameSync(next, 'dist');
rmSync(`${next}-old`, { recursive: true });

/** The page of the manual, written by the program that it is about. */
async function manPage() {
  const maker = `${next}-man.mjs`;
  const contents = "export { COMMANDS } from './src/main.ts'; export { manPage } from './src/cli/man-page.ts';";
  await build({ ...options, stdin: { contents, resolveDir: '.', loader: 'ts' }, outfile: maker });
  const { COMMANDS, manPage: page } = await import(pathToFileURL(maker).href);
  rmSync(maker);
  return page(COMMANDS, await Promise.all(COMMANDS.map(({ load }) => load())), ours);
}

/** The notices of every package that was bundled. */
function licensesOf(inputs) {
  const packages = inputs.map((path) => /.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0]).filter(Boolean);
  return [...new Set(packages)].toSorted().map(licenseOf).join('\n');
}

function licenseOf(folder) {
  const { name, version, license, author } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
  const by = typeof author === 'string' ? author : (author?.name ?? 'its authors');
  const text = file === undefined ? `${license} license, by ${by}\n` : readFileSync(`${folder}/${file}`, 'utf8');
  return `${name} ${version}\n\n${text}`;
}
