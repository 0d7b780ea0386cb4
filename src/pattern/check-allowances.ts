import { locationAtLength, pathLength } from '../geometry/arc-length.ts';
import { isInside } from '../geometry/area.ts';
import { pointOn } from '../geometry/evaluate.ts';
import { selfCrossings } from '../geometry/intersect.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { isClosed, type Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import type { Finding } from './finding.ts';
import { formatLength } from './format-length.ts';
import { seamWords, sewnSeams } from './look-up.ts';
import type { Edge, Panel } from './panel.ts';
import type { Pattern, Units } from './pattern.ts';

/** A cutting line farther than this from where its width puts it was drawn for another stitching line. */
const WIDTH_OFF = 0.1;

/** Wider than this an allowance is more likely a slip of units: two inches is the widest inlay. */
const WIDEST = 51;

const middleOf = (path: Path): Point => {
  const { segment, t } = locationAtLength(path, pathLength(path) / 2);
  return pointOn(path.segments[segment]!, t);
};

const widthFindings = (panel: Panel, cutting: Path, edge: Edge, units: Units): Finding[] => {
  const where = `panel ${panel.name}, edge ${edge.name}`;
  if (edge.allowance === undefined) {
    const cure = 'add the allowance again, with a width for every edge';
    return [
      { weight: 'warning', kind: 'allowance-missing', where, message: 'has no width, but other edges have', cure },
    ];
  }
  const findings: Finding[] = [];
  if (edge.allowance > WIDEST) {
    findings.push({
      weight: 'warning',
      kind: 'allowance-doubtful',
      where,
      message: `has an allowance of ${formatLength(edge.allowance, units)}: is that the unit that was meant?`,
      cure: 'strip the allowance and add it again',
    });
  }
  const middle = middleOf(edge.path);
  const drawn = nearestPoint(cutting, middle).distance;
  const inside = drawn <= WIDTH_OFF || isInside(cutting, middle);
  if (!inside || Math.abs(drawn - edge.allowance) > WIDTH_OFF) {
    findings.push({
      weight: 'warning',
      kind: 'cutting-line-stale',
      where,
      message: inside
        ? `the cutting line lies ${formatLength(drawn, units)} outside it, but its allowance is ${formatLength(edge.allowance, units)}`
        : 'lies outside the cutting line',
      cure: 'strip the allowance and add it again',
    });
  }
  return findings;
};

const cuttingFindings = (panel: Panel, units: Units): Finding[] => {
  const where = `panel ${panel.name}, cutting line`;
  const { cutting } = panel;
  const again = 'strip the allowance and add it again';
  if (!cutting) {
    const some = panel.edges.find((edge) => edge.allowance !== undefined);
    const message = 'is missing, but its edges have allowances';
    return some ? [{ weight: 'warning', kind: 'cutting-line-missing', where, message, cure: again }] : [];
  }
  if (!isClosed(cutting)) {
    return [{ weight: 'error', kind: 'cutting-line-open', where, message: 'is not closed', cure: again }];
  }
  if (selfCrossings(cutting).length > 0) {
    const cure = 'strip the allowance and add a narrower one';
    return [{ weight: 'error', kind: 'cutting-line-crosses-itself', where, message: 'crosses itself', cure }];
  }
  return panel.edges.flatMap((edge) => widthFindings(panel, cutting, edge, units));
};

/** The two edges of a seam are laid edge to edge to be sewn, which goes wrong unnoticed when their allowances differ. */
const unequalFindings = (pattern: Pattern): Finding[] =>
  sewnSeams(pattern).flatMap((seam): Finding[] => {
    const [one, other] = seam.edges;
    if (!one || !other || one.edge.allowance === other.edge.allowance) return [];
    const words = [one, other].map(({ panel, edge }) => {
      const width = edge.allowance === undefined ? 'none' : formatLength(edge.allowance, pattern.units);
      return `${width} on ${panel.name}`;
    });
    return [
      {
        weight: 'warning',
        kind: 'allowances-differ',
        where: `seam ${seamWords(seam)}`,
        message: `its two edges have different allowances: ${words.join(', ')}`,
        cure: 'match the stitching lines, not the cut edges, or add the allowance again',
      },
    ];
  });

const lineFindings = (pattern: Pattern): Finding[] => {
  const cutting = pattern.panels.filter((panel) => panel.line === 'cutting');
  if (cutting.length === 0) return [];
  const where = cutting.map(({ name }) => `panel ${name}`).join(', ');
  const cure = 'take the allowance off with staywright strip-allowance';
  if (cutting.length === pattern.panels.length) {
    const message = 'the edges are cutting lines: seams are not compared, as it is stitching lines that must match';
    return [{ weight: 'note', kind: 'cutting-lines', where: 'all panels', message, cure }];
  }
  const message = 'the edges are cutting lines, those of the other panels stitching lines';
  return [{ weight: 'error', kind: 'lines-mixed', where, message, cure }];
};

/** Whether it is plain which line each panel has, and each cutting line lies where its widths put it. */
export const checkAllowances = (pattern: Pattern): Finding[] => [
  ...lineFindings(pattern),
  ...pattern.panels.flatMap((panel) => cuttingFindings(panel, pattern.units)),
  ...unequalFindings(pattern),
];
