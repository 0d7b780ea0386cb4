import { signedArea } from '../../geometry/area.ts';
import type { Path } from '../../geometry/path.ts';
import { outlineOf } from '../../pattern/outline.ts';
import type { Panel } from '../../pattern/panel.ts';
import type { AllowanceWidths } from './allowance-widths.ts';
import { widthOf } from './width-of.ts';

/** What adding or stripping did: widths in millimetres, areas in square millimetres of what is cut out before and after. */
export interface AllowanceChange {
  readonly edges: readonly { readonly edge: string; readonly width: number }[];
  readonly panels: readonly { readonly panel: string; readonly areaBefore: number; readonly areaAfter: number }[];
}

/** The figures for panels before and after; edges that are sewn together are listed once. */
export const allowanceChange = (
  before: readonly Panel[],
  after: readonly Panel[],
  widths: AllowanceWidths | undefined,
): AllowanceChange => {
  const edges = new Map<string, number>();
  for (const edge of before.flatMap((panel) => panel.edges)) {
    const width = widths === undefined ? edge.allowance : widthOf(edge, widths);
    if (width !== undefined && !edges.has(edge.name)) edges.set(edge.name, width);
  }
  return {
    edges: [...edges].map(([edge, width]) => ({ edge, width })),
    panels: before.map((panel, at) => ({
      panel: panel.name,
      areaBefore: Math.abs(signedArea(cutLine(panel))),
      areaAfter: Math.abs(signedArea(cutLine(after[at]!))),
    })),
  };
};

const cutLine = (panel: Panel): Path => panel.cutting ?? outlineOf(panel);
