import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { reversePath } from '../geometry/reverse-path.ts';
import { transformPath } from '../geometry/transform-path.ts';
import type { Panel } from './panel.ts';

const MIRROR = { a: -1, b: 0, c: 0, d: 1, e: 0, f: 0 } as const;

const flip = ({ x, y }: Point): Point => ({ x: 0 - x, y });

/** Reversed as well, so that an outline still runs clockwise. */
const flipPath = (path: Path): Path => reversePath(transformPath(path, MIRROR));

/**
 * The panel seen from its other side: x becomes -x, exactly, so that doing it twice gives the same numbers. Its edges come in clockwise
 * order again, the first still first. Texts and artwork are left as they are: they belong to the sheet, not to this frame.
 */
export const mirrorPanel = (panel: Panel): Panel => {
  const [first, ...rest] = panel.edges.map((edge) => ({ ...edge, path: flipPath(edge.path) }));
  return {
    ...panel,
    edges: first ? [first, ...rest.toReversed()] : [],
    levels: panel.levels.map((level) => ({ ...level, fromX: 0 - level.toX, toX: 0 - level.fromX })),
    notches: panel.notches.map(({ edge, at, inner }) => ({ edge, at: flip(at), inner: flip(inner) })),
    ...(panel.slits ? { slits: panel.slits.map((slit) => ({ ...slit, at: flip(slit.at), to: flip(slit.to) })) } : {}),
    ...(panel.grain ? { grain: { from: flip(panel.grain.from), to: flip(panel.grain.to) } } : {}),
    bones: panel.bones.map(flipPath),
    ...(panel.cutting ? { cutting: flipPath(panel.cutting) } : {}),
  };
};

/** The panel as it lies on paper, right side up: one of the wearer's right is the mirror image of how it is held. And back again. */
export const asDrawn = (panel: Panel): Panel => (panel.side === 'right' ? mirrorPanel(panel) : panel);
