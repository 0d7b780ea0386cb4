/**
 * The record as a shell script. It holds the sheet in a variable, so that each step is a command of its own: a pipe would go on where one
 * of its commands has failed. Nothing is printed before all of them are done.
 */

import { shellWord } from '../record/shell-word.ts';
import type { Units } from '../pattern/pattern.ts';
import { shortHash, versionWith, whichVersion } from '../record/find-version.ts';
import { chainEnd, type Step } from '../record/record-chain.ts';
import type { Version } from '../record/versions-of.ts';
import { recordEffects } from './record-effects.ts';
import { recordedCommand } from './record-step.ts';

export interface RecordScript {
  readonly name: string;
  readonly units: Units;
  /** The whole chain. */
  readonly chain: readonly Step[];
  /** Those of its steps that the script runs. */
  readonly steps: readonly Step[];
  /** All versions in it. */
  readonly versions: readonly Version[];
  /** The one that the script begins with. */
  readonly since: Version;
  /** Hash of the sheet itself, where all of it was read. */
  readonly sheet?: string;
}

const WIDTH = 80;

/** The script, ending in a newline. */
export const recordScript = (script: RecordScript): string => {
  const { name, versions, steps, since } = script;
  const others = otherParents(steps);
  const original = since.hash;
  const made = since.by === 'step' ? `, which ${whichVersion(since)} made` : asMade(since);
  return [
    '#!/bin/sh',
    'set -eu',
    `# staywright record: ${printable(name)}`,
    '#',
    '# Makes the sheet again from its original:',
    '#   sh changes.sh ORIGINAL > NEW.svg',
    '',
    ...(original === null
      ? ['# ORIGINAL is the plain drawing or the scan that the first step reads']
      : [`# ORIGINAL is the sheet with this hash${made}:`, `#   ${printable(original)}`]),
    'original="${1:?which ORIGINAL?}"',
    ...others.flatMap((hash, at) => [
      `# OTHER-${at + 1}, one argument more, is the sheet with this hash${knownAs(hash, versions)}:`,
      `#   ${printable(hash)}`,
      `other_${at + 1}="\${${at + 2}:?which OTHER-${at + 1}?}"`,
    ]),
    '',
    '# Each step reads what the one before it made. One that fails ends the script,',
    '# and nothing is printed.',
    'start() { sheet=$(staywright "$@" -q); }',
    `step() { sheet=$(printf '%s\\n' "$sheet" | staywright "$@" -q); }`,
    '',
    ...stepLines(script, others),
    ...endLines(script, others),
    `printf '%s\\n' "$sheet"`,
    '',
  ].join('\n');
};

/** Hashes of the sheets that parts came from, each once, in the order in which they are needed. */
const otherParents = (steps: readonly Step[]): string[] => [
  ...new Set(steps.flatMap(({ change }) => (change.other === undefined ? [] : [change.other]))),
];

const knownAs = (hash: string, versions: readonly Version[]): string => {
  const version = versionWith(versions, hash);
  if (version === undefined) return '';
  if (version.by === 'origin') return ' (as the first was)';
  return version.by === 'step' ? ` (${whichVersion(version)} made it)` : ` (${whichVersion(version)})`;
};

const asMade = (version: Version): string => (version.by === 'origin' ? '' : `, ${whichVersion(version)}`);

const stepLines = ({ chain, steps, since, units }: RecordScript, others: readonly string[]): string[] => {
  let started = false;
  const lines = steps.flatMap((step) => {
    const { name, words, measures } = recordedCommand(step, units);
    const comments = commentsOf(step, chain, since, units).map((line) => `# ${printable(line)}`);
    if (measures) return [...comments, `# nothing to run: ${name} drew its measures`, ''];
    const { other } = step.change;
    const files = [
      ...(other === undefined ? [] : [`"$other_${others.indexOf(other) + 1}"`]),
      ...(started ? [] : ['"$original"']),
    ];
    const verb = started ? 'step' : 'start';
    started = true;
    return [...comments, ...commandLines([verb, name, ...files], words), ''];
  });
  // A sheet that is left as it is still has to be read.
  return started ? lines : [...lines, 'start describe "$original" --through', ''];
};

const commentsOf = (step: Step, chain: readonly Step[], since: Version, units: Units): string[] => {
  const { number, change, joint } = step;
  const above = chain[chain.indexOf(step) - 1];
  const written = above?.change.version === change.version ? '' : ` (staywright ${change.version})`;
  const [effect, ...levels] = recordEffects(change, units);
  const { before, after, other } = change;
  const apart = joint === 'beside' && before !== null ? [`  made beside those above, on ${shortHash(before)}`] : [];
  const broken =
    joint === 'broken' && since.step !== step
      ? [
          `Here ${shortHash(above?.change.after ?? 'a drawing')} became ${shortHash(before ?? 'a drawing')} by other means,`,
          'which this script cannot do again.',
        ]
      : [];
  return [
    ...broken,
    `Step ${number}${written} makes ${shortHash(after)}; ${effect}`,
    ...levels.map((line) => `  ${line}`),
    ...(other === undefined ? [] : [`  made of ${shortHash(before ?? 'a drawing')} and parts of ${shortHash(other)}`]),
    ...apart,
  ];
};

/** The command in lines that fit, an option beside its value. */
const commandLines = (start: readonly string[], words: readonly string[]): string[] => {
  const parts: string[] = [];
  for (const word of words.map(shellWord)) {
    const option = parts.at(-1);
    if (option !== undefined && /^--[\w-]+$/.test(option) && !word.startsWith('--'))
      parts[parts.length - 1] += ` ${word}`;
    else parts.push(word);
  }
  const lines = [start.join(' ')];
  for (const part of parts) {
    const line = `${lines.at(-1)!} ${part}`;
    if (line.length + 2 <= WIDTH) lines[lines.length - 1] = line;
    else lines.push(`  ${part}`);
  }
  return lines.map((line, at) => (at < lines.length - 1 ? `${line} \\` : line));
};

/** What the sheet must be in the end; on another original the script may well be tried, but not without a word. */
const endLines = ({ chain, steps, since, sheet }: RecordScript, others: readonly string[]): string[] => {
  const made = steps.length === 0 ? since.hash : chainEnd(chain);
  const end = made ?? sheet;
  if (end === undefined || end === null) return [];
  const names = others.length === 0 ? 'ORIGINAL' : 'ORIGINAL or OTHER';
  const hash = ['# The sheet has this hash now:', `#   ${printable(end)}`];
  if (steps.some((step) => step.joint === 'broken' && step !== since.step)) {
    return [...hash, "echo 'note: made without what was changed by other means' >&2"];
  }
  return [
    ...hash,
    `case $(printf '%s\\n' "$sheet" | staywright describe 2>&1) in`,
    `  *${shellWord(`pattern: version ${shortHash(printable(end))}`)}*) ;;`,
    `  *) echo 'note: not the sheet of the record: ${names} differs' >&2 ;;`,
    'esac',
  ];
};

/** In a comment nothing may end the line. */
// oxlint-disable-next-line no-control-regex
const printable = (text: string): string => text.replaceAll(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ');
