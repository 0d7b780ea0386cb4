import { choiceOption } from '../cli/choice-option.ts';
import { collect } from '../cli/collect.ts';
import { defineCommand, type Report } from '../cli/command.ts';
import { countOf } from '../cli/count-of.ts';
import type { Job } from '../cli/job.ts';
import { readJson } from '../cli/read-json.ts';
import { readSheetOrDrawing } from '../cli/read-sheet.ts';
import { recordChange } from '../cli/record-change.ts';
import { tableText } from '../cli/table-text.ts';
import { StaywrightError } from '../errors.ts';
import { labelDrawing } from '../labelling/label-drawing.ts';
import { backEdge, findLevel, frontEdge, levelNames } from '../pattern/look-up.ts';
import { SIDES } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { labelAnswers, LINES, PIECES, type LabelOptions } from './label-options.ts';

export const label = defineCommand({
  name: 'label',
  summary: 'names panels, seams and levels: a drawing becomes a sheet',
  kind: 'sheet',
  reads: 'drawings',
  takesSide: false,
  fileOptions: ['--from'],
  examples: [
    {
      says: 'three panels of a half pattern, drawn on the line to cut, waist drawn in',
      line: 'staywright label drawn.svg --line cutting --panels front,side,back \\\n  --seams cf,front-side,back-side,cb --level bust=waist+7in -o cut.svg',
    },
    {
      says: 'no waist is drawn: measure it down from the highest point of each panel',
      line: 'staywright label drawn.svg --line stitching --panels front,back \\\n  --seams cf,side,cb --level waist=front:210mm,back:204mm -o net.svg',
    },
    {
      says: 'the same answers from a file, then straight on to the net line',
      line: 'staywright label drawn.svg --from answers.json |\n  staywright strip-allowance --allowance 15mm -o net.svg',
    },
  ],
  notes: [
    'An outline whose id is a panel name is that panel; the others take the names left over, from left to right. Short lines on an outline are notches, straight lines across a panel with the name of a level are that level, a line named grain is the grainline.',
    'A level of your own, drawn across each panel with ids like ribs-front: add --level ribs.',
    '--line has no default: cutting says the outlines still carry seam allowance.',
  ],
  sample: [
    'answers.json, with any of these left out and typed instead:',
    '  { "line": "cutting", "units": "in",',
    '    "panels": ["front", "side", "back"],',
    '    "seams": ["cf", "front-side", "back-side", "cb"],',
    '    "levels": {',
    '      "bust": "waist+7in",',
    '      "waist": { "front": "210mm", "side": "204mm", "back": "198mm" } } }',
  ],
  declare: (commander) =>
    commander
      .addOption(choiceOption('--line <line>', 'cutting or stitching: which line is drawn', LINES))
      .option('--panels <names>', 'from centre front to centre back', collect)
      .option('--seams <names>', 'the same way, one name more than panels', collect)
      .option('--level <level>', 'bust=waist+7in, waist=front:210mm,..., or ribs (as drawn); repeatable', collect)
      .addOption(choiceOption('--pieces <how>', 'pairs: a half pattern (default), or single', PIECES))
      .addOption(choiceOption('--cf <side>', 'centre front is to the left (default) or right', SIDES))
      .option('--flip <names>', 'panels that are drawn mirrored', collect)
      .option('--turn <name=degrees>', 'turns a panel clockwise: back=180', collect)
      .option('--corner <corner>', 'back=top-front:120mm,45mm on the drawing', collect)
      .option('--units <mm|in>', 'what reports on this sheet are shown in (mm)')
      .option('--name <name>', "the pattern's name (the file's)")
      .option('--from <file>', 'answers from a JSON file; options win over it'),
  run: async (typed, job) => {
    const reading = await readSheetOrDrawing(job);
    if (reading.kind === 'sheet') {
      throw new StaywrightError('input', 'is labelled already', {
        where: reading.sheet.pattern.name,
        hint: 'label the drawing that it was made from',
      });
    }
    const { from, ...flags } = typed;
    const options: LabelOptions = { ...(from === undefined ? {} : await answersFrom(from, job)), ...flags };
    const { pattern, findings } = labelDrawing(reading.drawing, labelAnswers(options));
    return {
      sheet: recordChange(undefined, pattern, job.canonical(recorded(options))),
      report: reportOf(pattern),
      findings: [...reading.findings, ...findings],
    };
  },
});

/** Only a file of answers needs its schema, which is slow to load. */
const answersFrom = async (path: string, job: Job): Promise<LabelOptions> => {
  const json = await readJson(path, job);
  const { labelFlags } = await import('./answers-file.ts');
  return labelFlags(json, path);
};

/** Lists as one word each, whether they were typed or came from a file. */
const recorded = (options: LabelOptions): Record<string, unknown> => ({
  ...options,
  panels: options.panels?.join(','),
  seams: options.seams?.join(','),
  flip: options.flip?.join(','),
});

const reportOf = (pattern: Pattern): Report => {
  const table = tableText(
    ['panel', 'front seam', 'back seam', 'notches'],
    pattern.panels.map((panel) => [
      panel.name,
      frontEdge(panel).name,
      backEdge(panel).name,
      String(panel.notches.length),
    ]),
  );
  const { line } = pattern.panels[0]!;
  const meaning = line === 'cutting' ? 'the cutting line: strip-allowance comes next' : 'the stitching line';
  return {
    text: () => `${table}\n${levelLines(pattern)}`,
    last: () => `The outlines of ${countOf(pattern.panels.length, 'panel')} are ${meaning}.`,
    json: () => ({
      name: pattern.name,
      pieces: pattern.pieces,
      line,
      panels: pattern.panels.map((panel) => ({
        panel: panel.name,
        front_seam: frontEdge(panel).name,
        back_seam: backEdge(panel).name,
        notches: panel.notches.length,
        levels: panel.levels.map(({ name }) => name),
      })),
    }),
  };
};

const levelLines = (pattern: Pattern): string =>
  levelNames(pattern)
    .map((name) => {
      const lacking = pattern.panels.filter((panel) => findLevel(panel, name) === undefined).map((panel) => panel.name);
      return `level ${name}: ${lacking.length === 0 ? 'on every panel' : `not on ${lacking.join(', ')}`}\n`;
    })
    .join('');
