import type { Job } from '../cli/job.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevel } from '../cli/parse-level.ts';
import { parseNamedSettings, parseSettings } from '../cli/parse-settings.ts';
import { readJson } from '../cli/read-json.ts';
import { StaywrightError } from '../errors.ts';
import type { WantedGap } from '../measure/gap.ts';
import type { Finding } from '../pattern/finding.ts';
import type { LevelRef } from '../pattern/level-ref.ts';
import { levelYIfAny } from '../pattern/level-y.ts';
import { levelNames } from '../pattern/look-up.ts';
import type { Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { nearestName } from '../pattern/suggest.ts';

/** An opening that is often laced to. Common practice. */
const USUAL_GAP = '2in';

interface Wanted {
  readonly wanted: readonly WantedGap[];
  /** Whose body it is, where files say so. */
  readonly names: readonly string[];
  readonly findings: readonly Finding[];
}

export interface GapOptions {
  readonly body?: string[] | undefined;
  readonly reduction?: string[] | undefined;
  readonly gap?: string[] | undefined;
}

/**
 * What is wanted at each level, flags winning over the body file. A body file may serve many patterns: a level of it that this one
 * lacks is left out with a note.
 */
export const wantedGaps = async (options: GapOptions, pattern: Pattern, job: Job): Promise<Wanted> => {
  const body = options.body ?? [];
  const paths = body.filter((text) => !text.includes('='));
  const girths = new Map<string, WantedGap>();
  const files = new Map<string, string>();
  const names: string[] = [];
  const usualGap = parseLength(USUAL_GAP, '--gap');
  for (const path of paths) {
    const json = await readJson(path, job);
    const { parseBody } = await import('./body-file.ts');
    const { name, levels } = parseBody(json, path);
    names.push(name);
    for (const { level, girth, halves, reduction, gap: opening } of levels) {
      const ref = parseLevel(level, path);
      files.set(ref.text, path);
      const size = halves === undefined ? { body: girth } : { body: girth, halves };
      girths.set(ref.text, { level: ref, ...size, reduction: reduction ?? 0, gap: opening ?? usualGap });
    }
  }
  const typed = parseNamedSettings(
    body.filter((text) => text.includes('=')),
    '--body',
    'waist=28in, or name a file of girths',
  );
  for (const { name, value } of typed) {
    const level = parseLevel(name, '--body');
    const { halves: _, ...before } = girths.get(level.text) ?? { level, reduction: 0, gap: usualGap };
    files.delete(level.text);
    girths.set(level.text, { ...before, ...typedSize(value) });
  }
  if (girths.size === 0) {
    throw new StaywrightError('usage', 'whose body?', {
      where: '--body',
      hint: 'add --body body.json, or --body bust=36in,waist=28in',
    });
  }
  setEach(girths, options.reduction, '--reduction', 'reduction');
  setEach(girths, options.gap, '--gap', 'gap');
  for (const { level, body: size, halves } of girths.values()) {
    if (Math.min(size, ...Object.values(halves ?? {})) <= 0)
      throw new StaywrightError('usage', `${level.text} of the body must be more than nothing`, { where: '--body' });
  }
  const findings = [...files].flatMap(([level, file]) => lackingFinding(pattern, girths.get(level)!.level, file) ?? []);
  const skipped = new Set(findings.map(({ where }) => where));
  const wanted = [...girths.values()].filter(({ level }) => !skipped.has(level.text));
  if (wanted.length > 0) return { wanted, names, findings };
  throw new StaywrightError('input', `the pattern has none of its levels (${[...files.keys()].join(', ')})`, {
    where: [...new Set(files.values())].join(', '),
    hint: `the pattern has: ${levelNames(pattern).join(', ')}`,
  });
};

/** What is wanted of one half: its own girth where it was measured, else half of the whole; half of everything else. */
export const wantedOfSide = (wanted: readonly WantedGap[], side: Side | undefined): readonly WantedGap[] =>
  side === undefined
    ? wanted
    : wanted.map(({ level, body, halves, reduction, gap }) => ({
        level,
        body: halves?.[side] ?? body / 2,
        reduction: reduction / 2,
        gap: gap / 2,
      }));

/** A girth, or its halves as `left:right`. */
const typedSize = (text: string): Pick<WantedGap, 'body' | 'halves'> => {
  const parts = text.split(':');
  if (parts.length > 2) {
    throw new StaywrightError('usage', `'${text}' is neither a girth nor left:right`, {
      where: '--body',
      hint: 'write it like waist=28in, or waist=14in:15in where the halves differ',
    });
  }
  const [left, right] = parts.map((part) => parseLength(part, '--body'));
  if (right === undefined) return { body: left! };
  return { body: left! + right, halves: { left: left!, right } };
};

const setEach = (
  girths: Map<string, WantedGap>,
  texts: readonly string[] | undefined,
  where: string,
  part: 'reduction' | 'gap',
): void => {
  const settings = parseSettings(texts ?? [], where);
  for (const { name, value } of settings.toSorted(
    (a, b) => Number(a.name !== undefined) - Number(b.name !== undefined),
  )) {
    const length = parseLength(value, where);
    const names = name === undefined ? [...girths.keys()] : [parseLevel(name, where).text];
    for (const level of names) {
      const row = girths.get(level);
      if (row === undefined) {
        const near = nearestName(level, [...girths.keys()]);
        const hint = near === undefined ? `give the body's girth there: --body ${level}=...` : `did you mean ${near}?`;
        throw new StaywrightError('usage', `the body has no girth at ${level}`, { where, hint });
      }
      girths.set(level, { ...row, [part]: length });
    }
  }
};

/** A note where a panel lacks a level that a body file gives. */
const lackingFinding = (pattern: Pattern, level: LevelRef, file: string): Finding | undefined => {
  const lacking = pattern.panels
    .filter((panel) => !panel.gusset && levelYIfAny(panel, level) === undefined)
    .map(({ name }) => name);
  if (lacking.length === 0) return undefined;
  const near = nearestName(level.name, levelNames(pattern));
  const all = lacking.length === pattern.panels.length;
  return {
    weight: 'note',
    kind: 'level-left-out',
    where: level.text,
    message: `is in ${file}, but ${all ? 'not on this pattern' : `panel ${lacking.join(', ')} lacks it`}; not measured`,
    ...(near === undefined || near === level.name ? {} : { cure: `did you mean ${near}?` }),
  };
};
