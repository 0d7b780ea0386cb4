import { asDrawn } from '../pattern/mirror-panel.ts';
import { waistOf } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';
import { pathBox } from '../geometry/box.ts';
import type { Panel, Side } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';

/** Panels that lie on one waist line. */
export interface WornRow {
  /** Where left and right are separate panels: which side this is. */
  readonly side?: Side;
  readonly panels: readonly Panel[];
}

/**
 * The panels as they lie beside each other round the body, seen from outside, each as it is drawn on paper: from centre front to centre back, a
 * gusset after the first panel that it is set into. Where there are both sides, each has a row of its own, the right one from back to front.
 */
export const panelsAsWorn = ({ panels }: Pattern): readonly WornRow[] => {
  const ofSide = (side: Side | undefined): readonly Panel[] =>
    besideHosts(panels.filter((panel) => panel.side === side));
  const rows: WornRow[] = [
    { side: 'right', panels: ofSide('right').toReversed() },
    { side: 'left', panels: ofSide('left') },
    { panels: ofSide(undefined) },
  ];
  return rows.filter((row) => row.panels.length > 0).map((row) => ({ ...row, panels: row.panels.map(asDrawn) }));
};

const besideHosts = (panels: readonly Panel[]): Panel[] => {
  const gussets = panels.filter(({ gusset }) => gusset !== undefined);
  const others = panels.filter(({ gusset }) => gusset === undefined);
  const hostOf = (gusset: Panel): Panel | undefined =>
    others.find(({ slits = [] }) => slits.some((slit) => slit.gusset === gusset.name));
  const lost = gussets.filter((gusset) => hostOf(gusset) === undefined);
  return [...others.flatMap((host) => [host, ...gussets.filter((gusset) => hostOf(gusset) === host)]), ...lost];
};

/** How high the waist lies in a panel's own coordinates; the middle of a panel that has none. */
export const waistLine = (panel: Panel): number => {
  const waist = panel.gusset?.waistY ?? waistOf(panel);
  if (waist !== undefined) return waist;
  const { minY, maxY } = pathBox(outlineOf(panel));
  return (minY + maxY) / 2;
};
