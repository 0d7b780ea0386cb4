import { collect } from '../cli/collect.ts';
import { defineCommand, type Report } from '../cli/command.ts';
import { drawMeasures } from '../cli/draw-measures.ts';
import { figure, signedFigure } from '../cli/figure.ts';
import type { Job } from '../cli/job.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseLevel } from '../cli/parse-level.ts';
import { parseNamedSettings, parseSettings } from '../cli/parse-settings.ts';
import { readJson } from '../cli/read-json.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import { tableText } from '../cli/table-text.ts';
import { StaywrightError } from '../errors.ts';
import { gap as measureGap, type GapReport, type WantedGap } from '../measure/gap.ts';
import { formatLength } from '../pattern/format-length.ts';
import { nearestName } from '../pattern/suggest.ts';
import type { Units } from '../pattern/pattern.ts';

/** An opening that is often laced to. Common practice. */
const USUAL_GAP = '2in';

export const gap = defineCommand({
  name: 'gap',
  summary: 'the lacing gap on a body, and what each level needs',
  kind: 'measure',
  examples: [
    {
      says: 'a body from a file; two inches open all the way down',
      line: 'staywright gap net.svg --body body.json --gap 2in',
    },
    {
      says: 'a body as typed, two inches smaller at the waist when laced',
      line: 'staywright gap net.svg --body bust=36in,waist=28in --reduction waist=2in',
    },
    {
      says: 'does taking in the back help?',
      line: 'staywright take-in net.svg --seam cb --amount 6mm |\n  staywright gap --body body.json',
    },
  ],
  notes: [
    'Pattern wanted = body - reduction - gap wanted, round the body at each level. The gap = body - reduction - pattern. A reduction is 0 and a gap wanted 2in where nothing says otherwise; flags win over the file.',
    'Warns, with what to look out for, where a reduction is over a tenth of the body.',
  ],
  declare: (commander) =>
    commander
      .option('--body <body>', 'FILE.json, or girths: bust=36in,waist=28in; repeatable', collect)
      .option('--reduction <lengths>', 'waist=2in: how much smaller when laced (0)', collect)
      .option('--gap <lengths>', 'opening wanted: 2in, or waist=2in,hip=3in (2in)', collect),
  run: async (options, job) => {
    const { sheet, units, findings } = await readSheet(job);
    const wanted = await wantedOf(options, job);
    const report = measureGap(sheet.pattern, wanted);
    const says = report.rows.map((row, at) => ({
      level: wanted[at]!.level,
      says: `gap ${formatLength(row.predictedGap, units)}`,
    }));
    return {
      sheet,
      drawn: recordChange(
        sheet,
        drawMeasures(sheet.pattern, says, units),
        `${job.canonical(flagsOf(wanted))} --through`,
      ),
      report: reportOf(report, units),
      findings: [...findings, ...report.findings],
    };
  },
});

interface GapOptions {
  readonly body?: string[] | undefined;
  readonly reduction?: string[] | undefined;
  readonly gap?: string[] | undefined;
}

/** Flags win over the body file, level by level. */
const wantedOf = async (options: GapOptions, job: Job): Promise<WantedGap[]> => {
  const body = options.body ?? [];
  const paths = body.filter((text) => !text.includes('='));
  const girths = new Map<string, WantedGap>();
  const usualGap = parseLength(USUAL_GAP, '--gap');
  for (const path of paths) {
    const json = await readJson(path, job);
    const { parseBody } = await import('./body-file.ts');
    for (const { level, girth, reduction, gap: opening } of parseBody(json, path).levels) {
      const ref = parseLevel(level, path);
      girths.set(ref.text, { level: ref, body: girth, reduction: reduction ?? 0, gap: opening ?? usualGap });
    }
  }
  const typed = parseNamedSettings(
    body.filter((text) => text.includes('=')),
    '--body',
    'waist=28in, or name a file of girths',
  );
  for (const { name, value } of typed) {
    const level = parseLevel(name, '--body');
    const before = girths.get(level.text) ?? { level, body: 0, reduction: 0, gap: usualGap };
    girths.set(level.text, { ...before, body: parseLength(value, '--body') });
  }
  if (girths.size === 0) {
    throw new StaywrightError('usage', 'whose body?', {
      where: '--body',
      hint: 'add --body body.json, or --body bust=36in,waist=28in',
    });
  }
  setEach(girths, options.reduction, '--reduction', 'reduction');
  setEach(girths, options.gap, '--gap', 'gap');
  for (const { level, body: size } of girths.values()) {
    if (size <= 0)
      throw new StaywrightError('usage', `${level.text} of the body must be more than nothing`, { where: '--body' });
  }
  return [...girths.values()];
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

/** The flags that say the same as a body file and flags together. */
const flagsOf = (wanted: readonly WantedGap[]): Record<string, string> => {
  const list = (length: (row: WantedGap) => number): string =>
    wanted.map((row) => `${row.level.text}=${Math.round(length(row) * 1000) / 1000}mm`).join(',');
  return { body: list(({ body }) => body), reduction: list(({ reduction }) => reduction), gap: list((row) => row.gap) };
};

const reportOf = ({ rows, evenness, shape, overTenth }: GapReport, units: Units): Report => {
  const table = tableText(
    [
      `in ${units === 'in' ? 'inches' : 'mm'}`,
      'body',
      'reduction',
      'gap wanted',
      'pattern wanted',
      'pattern',
      'gap',
      'needs',
    ],
    rows.map((row) => [
      row.level,
      figure(row.body, units),
      figure(row.reduction, units),
      figure(row.gapWanted, units),
      figure(row.wantedGirth, units),
      figure(row.patternGirth, units),
      figure(row.predictedGap, units),
      signedFigure(row.needs, units),
    ]),
  );
  const even =
    rows.length < 2 ? '' : `The opening is ${shape}; widest less narrowest: ${formatLength(evenness, units)}.\n`;
  const needs = rows.map(({ level, needs: mm }) => `${level} ${needText(mm, units)}`);
  return {
    text: () => `${table}\n${even}`,
    last: () => `Needed round the body: ${needs.join('; ')}.`,
    json: () => ({
      levels: rows.map((row) => ({
        level: row.level,
        body_mm: row.body,
        reduction_mm: row.reduction,
        gap_wanted_mm: row.gapWanted,
        wanted_girth_mm: row.wantedGirth,
        pattern_girth_mm: row.patternGirth,
        predicted_gap_mm: row.predictedGap,
        needs_mm: row.needs,
      })),
      evenness_mm: evenness,
      shape,
      over_tenth: overTenth,
    }),
  };
};

const needText = (mm: number, units: Units): string => {
  const size = formatLength(Math.abs(mm), units);
  if (!/[1-9]/.test(size)) return 'nothing';
  return mm > 0 ? `let out ${size}` : `take in ${size}`;
};
