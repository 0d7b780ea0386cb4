import { nearestPoint } from '../geometry/nearest-point.ts';
import { point } from '../geometry/point.ts';
import { chordAt } from './chord.ts';
import { heightWords } from './check-outline.ts';
import type { Finding } from './finding.ts';
import { formatLength } from './format-length.ts';
import { seamSidesOf } from './look-up.ts';
import type { Panel } from './panel.ts';
import type { Units } from './pattern.ts';
import { suggestName } from './suggest.ts';

/** A mark farther than this from its edge was moved, not rounded: a tenth of the thinnest pencil line. */
const OFF_EDGE = 0.05;

/** Narrower than this at a level, a panel cannot be sewn and turned. */
const NARROWEST = 10;

const notchFindings = (panel: Panel, units: Units): Finding[] =>
  panel.notches.flatMap((notch): Finding[] => {
    const edge = panel.edges.find(({ name }) => name === notch.edge);
    if (!edge) {
      const names = panel.edges.map(({ name }) => name);
      return [
        {
          weight: 'error',
          kind: 'notch-without-edge',
          where: `panel ${panel.name}, notch ${heightWords(panel, notch.at, units)}`,
          message: `belongs to edge ${notch.edge}, which the panel does not have`,
          cure: suggestName(notch.edge, names),
        },
      ];
    }
    const off = nearestPoint(edge.path, notch.at).distance;
    if (off <= OFF_EDGE) return [];
    return [
      {
        weight: 'warning',
        kind: 'notch-off-edge',
        where: `panel ${panel.name}, edge ${edge.name}`,
        message: `the notch ${heightWords(panel, notch.at, units)} lies ${formatLength(off, units)} off the edge`,
        cure: 'move the notch onto its edge in a drawing program',
      },
    ];
  });

const levelFindings = (panel: Panel, units: Units): Finding[] =>
  panel.levels.flatMap((level): Finding[] => {
    const where = `panel ${panel.name}, level ${level.name}`;
    const chord = chordAt(panel, level.y);
    if (!chord) {
      return [
        {
          weight: 'error',
          kind: 'level-outside',
          where,
          message: 'does not run from one seam edge to the other',
          cure: 'move it to a height that both seam edges of the panel reach',
        },
      ];
    }
    const findings: Finding[] = [];
    const outline = { segments: panel.edges.flatMap((edge) => edge.path.segments) };
    const off = Math.max(...[level.fromX, level.toX].map((x) => nearestPoint(outline, point(x, level.y)).distance));
    if (off > OFF_EDGE) {
      findings.push({
        weight: 'warning',
        kind: 'level-off-edge',
        where,
        message: `ends ${formatLength(off, units)} off the edge`,
        cure: 'draw it from edge to edge; what is measured is the width between the edges',
      });
    }
    if (chord.width < NARROWEST && panel.gusset === undefined) {
      findings.push({
        weight: 'warning',
        kind: 'panel-narrow',
        where,
        message: `the panel is only ${formatLength(chord.width, units)} wide`,
        cure: 'let out a seam there, or join the panel to its neighbour',
      });
    }
    return findings;
  });

/** Whether notches lie on their edges, and levels run from edge to edge of a panel wide enough to sew. */
export const checkMarks = (panel: Panel, units: Units): Finding[] => [
  ...notchFindings(panel, units),
  ...(seamSidesOf(panel) ? levelFindings(panel, units) : []),
];
