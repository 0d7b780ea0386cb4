import { nearestPoint } from '../../geometry/nearest-point.ts';
import type { Point } from '../../geometry/point.ts';
import type { Edge, Level, Notch, Panel, Slit } from '../../pattern/panel.ts';
import { seamSidesOf } from '../../pattern/look-up.ts';
import { carryNotch } from '../../pattern/settle-marks.ts';
import { shiftUpright, type AmountUpright } from './shift-upright.ts';

/** Which part of a panel goes along: its two seams between heights that hold still, or everything on it. */
export type GoesAlong = 'seams' | 'all';

const movedPoint = (p: Point, amount: AmountUpright): Point => {
  const dy = amount.value(p.y);
  return dy === 0 ? p : { x: p.x, y: p.y + dy };
};

/** The edge moved; the very same one where nothing of it moves. */
const movedEdge = (edge: Edge, amount: AmountUpright): Edge => {
  const path = shiftUpright(edge.path, amount);
  if (path === edge.path) return edge;
  const { text: _text, ...kept } = edge;
  return { ...kept, path };
};

const movedLevel = (level: Level, amount: AmountUpright): Level => {
  const dy = amount.value(level.y);
  return dy === 0 ? level : { ...level, y: level.y + dy };
};

/**
 * A notch goes along with the place of the edge that it marks; where that only moves as it is, or not at all, so does the notch.
 * Always a new object: that is how settling the marks knows that it has been placed.
 */
const movedNotch = (notch: Notch, before: Edge, after: Edge, amount: AmountUpright): Notch => {
  const from = nearestPoint(before.path, notch.at);
  const dy = amount.value(from.point.y);
  if (amount.slope(from.point.y) === 0) {
    const down = ({ x, y }: Point): Point => ({ x, y: y + dy });
    return { ...notch, at: down(notch.at), inner: down(notch.inner) };
  }
  const to = nearestPoint(after.path, movedPoint(from.point, amount));
  return carryNotch(notch, before.path, from.location, after.path, to.location);
};

const movedSlit = (slit: Slit, amount: AmountUpright): Slit => {
  const [at, to] = [movedPoint(slit.at, amount), movedPoint(slit.to, amount)];
  return at === slit.at && to === slit.to ? slit : { ...slit, at, to };
};

/** The waist above a gusset goes along, so that what lies so far below it on the other panels lies beside the same place of the gusset. */
const movedWaist = (gusset: NonNullable<Panel['gusset']>, amount: AmountUpright): NonNullable<Panel['gusset']> => {
  const dy = amount.value(gusset.waistY);
  return dy === 0 ? gusset : { ...gusset, waistY: gusset.waistY + dy };
};

/**
 * The panel with its seams, or everything on it, moved straight up or down by the amount at each height: edges, notches, slits and levels, and of
 * everything the grainline's ends and the bones too. What does not move is the very same object; marks are not settled yet, and artwork stays.
 */
export const movePanelUpright = (panel: Panel, amount: AmountUpright, along: GoesAlong): Panel => {
  const sides = seamSidesOf(panel);
  // The corners of a gusset need not lie where nothing moves: its base goes along.
  const whole = along === 'all' || panel.gusset !== undefined;
  const goes = (edge: Edge): boolean => whole || edge === sides?.front || edge === sides?.back;
  const edges = panel.edges.map((edge) => (goes(edge) ? movedEdge(edge, amount) : edge));
  const gusset = panel.gusset && movedWaist(panel.gusset, amount);
  if (gusset === panel.gusset && edges.every((edge, index) => edge === panel.edges[index])) return panel;
  const moved: Panel = {
    ...panel,
    edges,
    ...(gusset ? { gusset } : {}),
    levels: panel.levels.map((level) => movedLevel(level, amount)),
    notches: panel.notches.map((notch) => {
      const index = panel.edges.findIndex(({ name }) => name === notch.edge);
      const [before, after] = [panel.edges[index], edges[index]];
      return before === undefined || after === undefined || before === after
        ? notch
        : movedNotch(notch, before, after, amount);
    }),
    ...(panel.slits ? { slits: panel.slits.map((slit) => movedSlit(slit, amount)) } : {}),
  };
  if (along === 'seams') return moved;
  const { grain } = panel;
  return {
    ...moved,
    ...(grain ? { grain: { from: movedPoint(grain.from, amount), to: movedPoint(grain.to, amount) } } : {}),
    bones: panel.bones.map((bone) => shiftUpright(bone, amount)),
  };
};
