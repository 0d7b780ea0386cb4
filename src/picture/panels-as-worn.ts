import { asDrawn } from '../pattern/mirror-panel.ts';
import { waistOf } from '../pattern/look-up.ts';
import { outlineOf } from '../pattern/outline.ts';
import { pathBox } from '../geometry/box.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';

/**
 * The panels as they lie beside each other round the body, seen from outside: from centre front to centre back, gussets after the last panel
 * that they are set into; where there are both sides, the right ones first, from centre back to centre front. Each as it is drawn on paper.
 */
export const panelsAsWorn = ({ panels }: Pattern): readonly Panel[] => {
  const ofSide = (side: Panel['side']): Panel[] => besideHosts(panels.filter((panel) => panel.side === side));
  const right = ofSide('right').toReversed();
  return [...right, ...ofSide('left'), ...ofSide(undefined)].map(asDrawn);
};

const besideHosts = (panels: readonly Panel[]): Panel[] => {
  const gussets = panels.filter(({ gusset }) => gusset !== undefined);
  const others = panels.filter(({ gusset }) => gusset === undefined);
  const lastHost = (gusset: Panel): Panel | undefined =>
    others.findLast(({ slits = [] }) => slits.some((slit) => slit.gusset === gusset.name));
  const lost = gussets.filter((gusset) => lastHost(gusset) === undefined);
  return [...others.flatMap((host) => [host, ...gussets.filter((gusset) => lastHost(gusset) === host)]), ...lost];
};

/** How high the waist lies in a panel's own coordinates; the middle of a panel that has none. */
export const waistLine = (panel: Panel): number => {
  const waist = panel.gusset?.waistY ?? waistOf(panel);
  if (waist !== undefined) return waist;
  const { minY, maxY } = pathBox(outlineOf(panel));
  return (minY + maxY) / 2;
};
