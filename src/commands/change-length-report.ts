import type { LengthChange } from '../alterations/change-length.ts';
import type { Report } from '../cli/command.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import { heightsJson, heightTable } from './height-table.ts';
import { edgesLines, shapeJson } from './shape-report.ts';

/** What lengthening or shortening did: heights and girths, the edges, and the change itself last. */
export const changeLengthReport = (change: LengthChange, units: Units): Report => ({
  text: () =>
    [
      heightTable(change.heights, change.girth, units),
      ...edgesLines(change.edges, units).map(
        (line) => `${line}
`,
      ),
    ].join(''),
  last: () => lastLine(change, units),
  json: () => ({
    between: change.between,
    longer_mm: change.longer,
    up_mm: change.up,
    down_mm: change.down,
    ...heightsJson(change.heights),
    ...shapeJson(change),
  }),
});

/** `Lengthened by 12.70 mm between bust and waist; all above bust lies 12.70 mm higher, all below waist stays.` */
const lastLine = ({ between: [high, low], longer, up, down }: LengthChange, units: Units): string => {
  const lies = (by: number, higher: boolean): string =>
    by === 0 ? 'stays' : `lies ${formatLength(Math.abs(by), units)} ${by > 0 === higher ? 'higher' : 'lower'}`;
  const done = `${longer > 0 ? 'Lengthened' : 'Shortened'} by ${formatLength(Math.abs(longer), units)}`;
  return `${done} between ${high} and ${low}; all above ${high} ${lies(up, true)}, all below ${low} ${lies(down, false)}.`;
};
