import { StaywrightError } from '../errors.ts';
import type { Finding } from '../pattern/finding.ts';
import { seamSidesOf } from '../pattern/look-up.ts';
import type { CornerStyle, Edge, Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { allowanceChange, type AllowanceChange } from './allowance/allowance-change.ts';
import type { AllowanceWidths } from './allowance/allowance-widths.ts';
import { redrawCutting } from './allowance/redraw-cutting.ts';
import { checkWidths, widthOf } from './allowance/width-of.ts';

/** How the allowance ends where seams meet top and bottom edges: one way for all, and others for the top or the bottom. */
export interface CornerStyles {
  readonly default: CornerStyle;
  readonly top?: CornerStyle;
  readonly bottom?: CornerStyle;
}

export interface AddedAllowance {
  readonly pattern: Pattern;
  readonly change: AllowanceChange;
  readonly findings: readonly Finding[];
}

/**
 * Draws a cutting line round every panel, at the width of each edge outside its stitching line, which stays the panel's line. Widths
 * and corners are kept with the edges, so that later alterations draw the cutting line again; one that was there before is replaced.
 * Throws `usage` for unknown edges or missing widths, `input` for panels whose edges are cutting lines already, `impossible` where
 * a cutting line cannot be drawn.
 */
export const addAllowance = (pattern: Pattern, widths: AllowanceWidths, corners: CornerStyles): AddedAllowance => {
  const cut = pattern.panels.filter((panel) => panel.line === 'cutting').map((panel) => panel.name);
  if (cut.length > 0) {
    throw new StaywrightError('input', 'already carries seam allowance', {
      where: `panel ${cut.join(', ')}`,
      hint: 'take it off first: staywright strip-allowance',
    });
  }
  checkWidths(pattern.panels, widths);
  const panels = pattern.panels.map((panel) => addToPanel(panel, widths, corners));
  const after = { ...pattern, panels };
  return {
    pattern: after,
    change: allowanceChange(pattern.panels, panels, widths),
    findings: plainCorners(pattern.panels, corners),
  };
};

const addToPanel = (panel: Panel, widths: AllowanceWidths, corners: CornerStyles): Panel => {
  const finished = new Set(seamSidesOf(panel) ? ['top', 'bottom'] : []);
  const edges = panel.edges.map(({ corners: _corners, ...edge }): Edge => {
    const style = edge.name === 'top' ? corners.top : edge.name === 'bottom' ? corners.bottom : undefined;
    const width = { ...edge, allowance: widthOf(edge, widths)! };
    const asked = style ?? corners.default;
    return finished.has(edge.name) && asked !== 'mitre' ? { ...width, corners: asked } : width;
  });
  return redrawCutting({ ...panel, edges });
};

/** A panel without a top and a bottom has no corners that could be finished. */
const plainCorners = (panels: readonly Panel[], corners: CornerStyles): Finding[] => {
  const asked = [corners.default, corners.top, corners.bottom].some(
    (style) => style !== undefined && style !== 'mitre',
  );
  const unlabelled = panels.filter((panel) => seamSidesOf(panel) === undefined).map((panel) => panel.name);
  if (!asked || unlabelled.length === 0) return [];
  return [
    {
      weight: 'warning',
      kind: 'corners-mitred',
      where: `panel ${unlabelled.join(', ')}`,
      message: 'has no named top and bottom edge, so its corners are mitred',
      cure: 'name panels and seams first: staywright label',
    },
  ];
};
