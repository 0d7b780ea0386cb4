import { StaywrightError } from '../errors.ts';
import { selfCrossings } from '../geometry/intersect.ts';
import { offsetOutline } from '../geometry/offset-outline.ts';
import { roundPath } from '../geometry/round-path.ts';
import type { Finding } from '../pattern/finding.ts';
import { formatLength } from '../pattern/format-length.ts';
import { levelSpan } from '../pattern/level-span.ts';
import { changedMateFindings } from '../pattern/mates.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Edge, Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { typedLength } from '../pattern/typed-length.ts';
import { allowanceChange, type AllowanceChange } from './allowance/allowance-change.ts';
import { ALLOWANCE_TOLERANCE, type AllowanceWidths } from './allowance/allowance-widths.ts';
import { carryMarks } from './allowance/carry-marks.ts';
import { largestPart } from './largest-part.ts';
import { mitreCorners } from './allowance/mitre-corners.ts';
import { regrowCorners } from './allowance/regrow-corners.ts';
import { checkWidths, widthOf } from './allowance/width-of.ts';

export interface StrippedAllowance {
  readonly pattern: Pattern;
  readonly change: AllowanceChange;
  readonly findings: readonly Finding[];
}

/**
 * Takes the seam allowance off: each edge moves inwards by its width, corners lying where the parallels truly meet; notches are
 * carried along the normal, levels trimmed, grain and artwork kept. Where the stitching lines are there already and only a cutting
 * line was added round them, that line is dropped and no width is needed. Throws `usage` for unknown edges or missing widths, `input`
 * for panels that carry no allowance, `impossible` with the largest width that works where a panel is too small for its own.
 */
export const stripAllowance = (pattern: Pattern, widths: AllowanceWidths): StrippedAllowance => {
  const net = pattern.panels.filter((panel) => panel.line === 'stitching' && panel.cutting === undefined);
  if (net.length > 0) {
    throw new StaywrightError('input', 'carries no seam allowance: its edges are the stitching line', {
      where: `panel ${net.map((panel) => panel.name).join(', ')}`,
      hint: 'add some with staywright add-allowance, or label the drawing again with --line cutting',
    });
  }
  const cut = pattern.panels.filter((panel) => panel.line === 'cutting');
  if (cut.length > 0) checkWidths(cut, widths);
  const stripped = pattern.panels.map((panel) =>
    panel.line === 'cutting' ? stripPanel(panel, widths, pattern.units) : { panel: dropCutting(panel), findings: [] },
  );
  const after: Pattern = { ...pattern, panels: stripped.map(({ panel }) => panel) };
  const findings = [
    ...stripped.flatMap((one) => one.findings),
    ...changedMateFindings(pattern, after).map(blameWidths),
    ...unusedWidths(pattern, cut, widths),
  ];
  const asked = cut.length > 0 ? widths : undefined;
  return { pattern: after, change: allowanceChange(pattern.panels, after.panels, asked), findings };
};

const dropCutting = (panel: Panel): Panel => {
  const { cutting: _, ...rest } = panel;
  return { ...rest, edges: panel.edges.map(({ allowance: _width, corners: _style, ...edge }) => edge) };
};

const stripPanel = (
  panel: Panel,
  widths: AllowanceWidths,
  units: Units,
): { panel: Panel; findings: readonly Finding[] } => {
  const widthsOfEdges = panel.edges.map((edge) => widthOf(edge, widths)!);
  const edges = netEdges(panel, widthsOfEdges);
  if (!Array.isArray(edges)) return refuseStripping(panel, widthsOfEdges, edges, units);
  return carryMarks(panel, { ...panel, line: 'stitching', edges }, widthsOfEdges);
};

/** Why an allowance cannot be taken off; `tooWide` where a smaller one can be. */
interface Trouble {
  readonly reason: string;
  readonly tooWide: boolean;
  readonly hint?: string | undefined;
}

/** The stitching edges, or what stands in their way. */
const netEdges = (panel: Panel, widths: readonly number[]): Edge[] | Trouble => {
  try {
    const plain = mitreCorners(panel, widths);
    const runs = plain.map((path, at) => ({ path, distance: -widths[at]! }));
    const paths = regrowCorners(plain, offsetOutline(runs, ALLOWANCE_TOLERANCE)).map(roundPath);
    const edges = panel.edges.map((edge, at) => ({ name: edge.name, path: paths[at]! }));
    return isSound(panel, { ...panel, edges }) ? edges : TOO_SMALL;
  } catch (error) {
    if (error instanceof StaywrightError && error.code === 'impossible') return troubleOf(error, panel);
    throw error;
  }
};

const TOO_SMALL: Trouble = { reason: 'the panel is too small', tooWide: true };

/** What the offset says, in words of the panel. */
const troubleOf = ({ cause, message, hint }: StaywrightError, panel: Panel): Trouble => {
  if (typeof cause !== 'object' || cause === null) return { reason: message, tooWide: false, hint };
  if (!('run' in cause)) return TOO_SMALL;
  return { reason: `nothing would be left of its edge ${panel.edges[Number(cause.run)]!.name}`, tooWide: true };
};

/** Whether the net panel still is one: its outline does not cross itself, and its waist still runs from seam to seam. */
const isSound = (before: Panel, after: Panel): boolean => {
  if (selfCrossings(outlineOf(after)).length > 0) return false;
  const waist = before.levels.find((level) => level.name === 'waist');
  return (
    waist === undefined || !levelSpan(before, waist.y)?.meetsSeams || levelSpan(after, waist.y)?.meetsSeams === true
  );
};

const refuseStripping = (panel: Panel, widths: readonly number[], trouble: Trouble, units: Units): never => {
  const asked = `an allowance of ${formatLength(Math.max(...widths), units)}`;
  const where = `panel ${panel.name}`;
  if (trouble.tooWide) {
    const hint = largestWidth(panel, widths, units) ?? CHECK_SHAPE;
    throw new StaywrightError('impossible', `${trouble.reason} for ${asked}`, { where, hint });
  }
  const hint = trouble.hint ?? CHECK_SHAPE;
  throw new StaywrightError('impossible', `${asked} cannot be taken off: ${trouble.reason}`, { where, hint });
};

const CHECK_SHAPE = 'no allowance can be taken off this shape; check it with staywright check';

/** A width so small that it is none. */
const LEAST_WIDTH = 0.1;

/** What works, halved down to what a maker can type, which was tried; undefined where nothing does. */
const largestWidth = (panel: Panel, widths: readonly number[], units: Units): string | undefined => {
  const tried = (part: number): Edge[] | Trouble =>
    netEdges(
      panel,
      widths.map((width) => width * part),
    );
  const works = (part: number): boolean => Array.isArray(tried(part));
  const widest = Math.max(...widths);
  const typed = typedLength(widest * largestPart(works), units);
  if (typed.mm <= LEAST_WIDTH || !works(typed.mm / widest)) return undefined;
  return widths.every((width) => width === widest)
    ? `the largest that works here is ${typed.text}`
    : `with all widths smaller in proportion, the widest can be ${typed.text}`;
};

/** Once an allowance is off, the likeliest reason for mates that differ is its width. */
const blameWidths = (finding: Finding): Finding =>
  finding.kind === 'mates-differ'
    ? {
        ...finding,
        cure: 'check the widths: an edge may have had another allowance; if not, the drawing differs there',
      }
    : finding;

const unusedWidths = (pattern: Pattern, cut: readonly Panel[], widths: AllowanceWidths): Finding[] => {
  const given = widths.all !== undefined || Object.keys(widths.byEdge).length > 0;
  if (!given || cut.length > 0) return [];
  const message =
    'the stitching lines are known, so the added cutting lines were dropped and the widths given were not used';
  return [{ weight: 'note', kind: 'widths-not-used', where: pattern.name, message }];
};
