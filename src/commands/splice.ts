import { splice as spliceOn } from '../alterations/splice.ts';
import { defineCommand } from '../cli/command.ts';
import { wholeSheet } from '../cli/one-side.ts';
import { readSheet } from '../cli/read-sheet.ts';
import { alterSheet } from './alter-sheet.ts';
import { declareSplice, SPLICE_NOTES, spliceOf } from './splice-options.ts';
import { spliceReport } from './splice-report.ts';

export const splice = defineCommand({
  name: 'splice',
  summary: 'takes parts from another size or version, with fair joins',
  kind: 'sheet',
  drawsOverlay: true,
  takesOther: true,
  examples: [
    {
      says: 'size 3 above the waist, size 2 at the waist and below',
      line: 'staywright splice net-3.svg net-2.svg --above waist -o v2.svg',
    },
    {
      says: 'between two sizes, level by level',
      line: 'staywright splice net-3.svg net-2.svg --size bust=other \\\n  --size waist=this --size high-hip=other -o v2.svg',
    },
    {
      says: 'the hip of an earlier version again, with allowance for the mock-up',
      line: 'staywright splice v1.svg v4.svg --below waist --blend 3in |\n  staywright add-allowance --allowance 1in -o mock-up.svg',
    },
  ],
  notes: SPLICE_NOTES,
  declare: declareSplice,
  run: async (options, job) => {
    const what = spliceOf(options);
    const other = await readSheet({ ...job, input: job.other });
    const name = job.other === '-' ? 'standard input' : job.other!;
    const outcome = await alterSheet(
      job,
      options,
      (pattern, redraw) => spliceOn(pattern, other.sheet.pattern, what, name, redraw),
      (change, _, units) => spliceReport(change, name, units),
      wholeSheet(other.sheet).pattern,
    );
    return { ...outcome, findings: [...other.findings, ...outcome.findings] };
  },
});
