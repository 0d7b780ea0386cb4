import type { AllowanceChange } from '../alterations/allowance/allowance-change.ts';
import type { Report } from '../cli/command.ts';
import { formatLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';

/** What was added or taken off, edge by edge; `last` is the line that matters most. */
export const allowanceReport = ({ edges, panels }: AllowanceChange, units: Units, last: string): Report => {
  const byWidth = groupByWidth(edges, units);
  const lines = [...byWidth].map(([width, names]) => `${width}: ${names.join(', ')}`);
  return {
    text: () => lines.map((line) => `${line}\n`).join(''),
    last: () => last,
    json: () => ({
      edges: edges.map(({ edge, width }) => ({ edge, width_mm: width })),
      panels: panels.map(({ panel, areaBefore, areaAfter }) => ({
        panel,
        area_before_mm2: areaBefore,
        area_after_mm2: areaAfter,
      })),
    }),
  };
};

const groupByWidth = (edges: AllowanceChange['edges'], units: Units): Map<string, string[]> => {
  const groups = new Map<string, string[]>();
  for (const { edge, width } of edges) {
    const text = formatLength(width, units);
    groups.set(text, [...(groups.get(text) ?? []), edge]);
  }
  return groups;
};
