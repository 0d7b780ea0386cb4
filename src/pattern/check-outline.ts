import { signedArea } from '../geometry/area.ts';
import { pathBox } from '../geometry/box.ts';
import { selfCrossings } from '../geometry/intersect.ts';
import { isClosed, pathEnd, pathStart, type Path } from '../geometry/path.ts';
import { distance, type Point } from '../geometry/point.ts';
import type { Finding } from './finding.ts';
import { formatLength } from './format-length.ts';
import { waistOf } from './look-up.ts';
import type { Panel } from './panel.ts';
import type { Units } from './pattern.ts';

/** Panels whose longer side lies outside these were most likely read at a wrong scale. */
const SMALLEST_PANEL = 20;
const LARGEST_PANEL = 2500;

/** More crossings of one outline than this say no more than these do. */
const MOST_CROSSINGS = 5;

/** A point in a maker's words: how far above or below the waist, or without one, below the panel's highest point. */
export const heightWords = (panel: Panel, at: Point, units: Units): string => {
  const waist = waistOf(panel);
  const [from, name] =
    waist !== undefined ? [waist, 'the waist'] : [pathBox(segmentsOf(panel)).minY, 'its highest point'];
  const below = at.y - from;
  if (Math.abs(below) < 0.05) return `at ${name}`;
  return `${formatLength(Math.abs(below), units)} ${below > 0 ? 'below' : 'above'} ${name}`;
};

const segmentsOf = (panel: Panel): Path => ({ segments: panel.edges.flatMap((edge) => edge.path.segments) });

/** The name of the edge that holds a segment of the whole outline. */
const edgeOfSegment = (panel: Panel, segment: number): string => {
  let left = segment;
  for (const edge of panel.edges) {
    if (left < edge.path.segments.length) return edge.name;
    left -= edge.path.segments.length;
  }
  return '';
};

const gapFindings = (panel: Panel, units: Units): Finding[] =>
  panel.edges.flatMap((edge, i): Finding[] => {
    const next = panel.edges[(i + 1) % panel.edges.length]!;
    const gap = distance(pathEnd(edge.path), pathStart(next.path));
    if (gap === 0) return [];
    return [
      {
        weight: 'error',
        kind: 'outline-open',
        where: `panel ${panel.name}, edges ${edge.name} and ${next.name}`,
        message: `${next.name} begins ${formatLength(gap, units)} away from where ${edge.name} ends`,
        cure: 'move the two ends onto one point in a drawing program',
      },
    ];
  });

const crossingFindings = (panel: Panel, outline: Path, units: Units): Finding[] =>
  selfCrossings(outline)
    .slice(0, MOST_CROSSINGS)
    .map(({ a, b, point }): Finding => {
      const names = [...new Set([edgeOfSegment(panel, a.segment), edgeOfSegment(panel, b.segment)])];
      return {
        weight: 'error',
        kind: 'outline-crosses-itself',
        where: `panel ${panel.name}, edge${names.length > 1 ? 's' : ''} ${names.join(' and ')}`,
        message: `the outline crosses itself ${heightWords(panel, point, units)}`,
        cure: 'redraw the edge there, or go back to the sheet before the last change',
      };
    });

const turningFindings = (panel: Panel, outline: Path): Finding[] =>
  signedArea(outline) > 0
    ? []
    : [
        {
          weight: 'error',
          kind: 'outline-anticlockwise',
          where: `panel ${panel.name}`,
          message: 'the edges run anticlockwise round the panel, so that in and out are taken for each other',
          cure: 'reverse its paths in a drawing program, or label the drawing again',
        },
      ];

const scaleFindings = (panel: Panel, outline: Path, units: Units): Finding[] => {
  const box = pathBox(outline);
  const side = Math.max(box.maxX - box.minX, box.maxY - box.minY);
  if ((side >= SMALLEST_PANEL || panel.gusset) && side <= LARGEST_PANEL) return [];
  return [
    {
      weight: 'warning',
      kind: 'scale-doubtful',
      where: `panel ${panel.name}`,
      message: `is ${formatLength(side, units)} long: was the drawing read at its true scale?`,
      cure: 'read it again with --test-square or --scale',
    },
  ];
};

/** Whether the outline of one panel is closed, runs clockwise, nowhere crosses itself, and has a believable size. */
export const checkOutline = (panel: Panel, units: Units): Finding[] => {
  const outline = segmentsOf(panel);
  if (outline.segments.length === 0) {
    const cure = 'draw its outline, or take the panel out of the sheet';
    return [{ weight: 'error', kind: 'outline-missing', where: `panel ${panel.name}`, message: 'has no edges', cure }];
  }
  const gaps = gapFindings(panel, units);
  const size = scaleFindings(panel, outline, units);
  if (gaps.length > 0 || !isClosed(outline)) return [...gaps, ...size];
  const crossings = crossingFindings(panel, outline, units);
  return [...(crossings.length > 0 ? crossings : turningFindings(panel, outline)), ...size];
};
