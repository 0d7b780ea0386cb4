import type { Panel } from '../pattern/panel.ts';

/**
 * How lines look when a sheet is opened: told apart by weight and dash, all in black and one grey, so that it prints on anything.
 * The line that is cut is the heaviest; a net line without a cutting line is drawn whole, with one it is dashed.
 */
const INK = '#1a1a1a';
const GREY = '#6b6b6b';

const line = (width: number, dash: string, stroke = INK): string =>
  `stroke="${stroke}" stroke-width="${width}" stroke-dasharray="${dash}"`;

export const PANEL_STYLE = 'fill="none" stroke-linecap="round" stroke-linejoin="round"';

/** The outlines of a plain drawing, about which nothing is known yet. */
export const OUTLINE_STYLE = line(0.4, 'none');

/** The style of a panel's edges, set on its group so that the lines of an edge stay the same when allowance is added. */
export const edgeStyle = (panel: Panel): string => {
  if (panel.line === 'cutting') return line(0.8, 'none');
  return panel.cutting ? line(0.4, '5 2') : line(0.5, 'none');
};

export const MARK_STYLES = {
  cutting: line(0.8, 'none'),
  level: line(0.25, '1.5 1.5', GREY),
  notch: line(0.6, 'none'),
  slit: line(0.5, '2.5 1.2 0.6 1.2'),
  ring: line(0.4, 'none'),
  grain: line(0.3, '14 2 2 2', GREY),
  arrow: line(0.3, 'none', GREY),
  bone: line(0.3, '3 1.5', GREY),
} as const;

export const TEXT_STYLE = `fill="${INK}" stroke="none" font-family="sans-serif"`;
export const SMALL_TEXT_STYLE = `fill="${GREY}" stroke="none" font-family="sans-serif"`;

/** What artwork is drawn with unless it says otherwise: SVG's own defaults again, against what the panel's group sets. */
export const ART_STYLE =
  'fill="#000" stroke="none" stroke-width="1" stroke-dasharray="none" stroke-linecap="butt" stroke-linejoin="miter"';
