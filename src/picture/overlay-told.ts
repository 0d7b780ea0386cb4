import type { Matrix } from '../geometry/matrix.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import { formatSigned, shortLength } from '../pattern/format-length.ts';
import type { Units } from '../pattern/pattern.ts';
import type { Amount } from './overlay-amounts.ts';
import { outlinesOf, type Overlaid, type OverlayEdge, type OverlayPanel } from './overlay-panel.ts';
import { SEEN_APART } from './overlay-stretches.ts';

/** What moved enough to be seen, by an amount that is not told as nothing. */
export const toldEdges = (found: OverlayPanel | undefined, units: Units): OverlayEdge[] =>
  (found?.edges ?? []).filter(
    (edge) => edge.kind === 'moved' && Math.abs(edge.most) > SEEN_APART && /[1-9]/.test(amountText(edge, units)),
  );

/** The amount with its sign, in the units of the report but without them. */
export const amountText = ({ most, place }: OverlayEdge, units: Units): string =>
  place === 'other' ? shortLength(most, units, true) : signedText(most, units);

/** To a hundredth of a millimetre: lines that moved alike are told alike. */
export const signedText = (mm: number, units: Units): string =>
  units === 'mm' ? formatSigned(mm, units).replace(' mm', '') : `${mm > 0 ? '+' : ''}${shortLength(mm, units, true)}`;

/** The amounts of a panel, each with the side on which it stands. */
export const panelAmounts = (panel: Overlaid, place: Matrix, units: Units): Amount[] => {
  const lines = outlinesOf(panel).map((path) => transformPath(path, place));
  const isRight = panel.after?.side === 'right';
  return toldEdges(panel.found, units).map((edge) => {
    const x = ((edge.from.x + edge.to.x) / 2) * (isRight ? -1 : 1);
    const at = transformPoint({ x, y: (edge.from.y + edge.to.y) / 2 }, place);
    const isLeft = (edge.place === 'front') !== isRight;
    const side = edge.place === 'top' || edge.place === 'bottom' ? edge.place : isLeft ? 'left' : 'right';
    return { text: amountText(edge, units), at, side, lines };
  });
};
