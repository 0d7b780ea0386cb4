import type { Panel } from '../pattern/panel.ts';
import type { WornRow } from './panels-as-worn.ts';
import { commonScale, type RowItem, type RowSize } from './row-of-panels.ts';

/** Below this scale figures find no room in a panel. */
const SMALLEST_SCALE = 1 / 4;

/** Rows of so many panels that they would be drawn too small go on in a row below. */
export const readableRows = (
  rows: readonly WornRow[],
  itemOf: (panel: Panel) => RowItem,
  room: RowSize,
): readonly WornRow[] => {
  const most = Math.max(...rows.map(({ panels }) => panels.length));
  for (let length = most; length > 1; length = Math.ceil(length / 2)) {
    const broken = rows.flatMap((row) => brokenRow(row, length));
    const items = broken.map(({ panels }) => panels.map(itemOf));
    if (commonScale(items, room) >= SMALLEST_SCALE) return broken;
  }
  return rows;
};

const brokenRow = ({ panels, ...row }: WornRow, length: number): WornRow[] =>
  Array.from({ length: Math.ceil(panels.length / length) }, (_, at) => ({
    ...row,
    panels: panels.slice(at * length, (at + 1) * length),
  }));
