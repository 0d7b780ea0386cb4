import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import type { Vector } from '../geometry/vector.ts';
import { asDrawn } from '../pattern/mirror-panel.ts';
import { movedPanel } from '../pattern/moved-panel.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { addedEnds, changedStretches } from './overlay-stretches.ts';

/** What was found of one edge; points in the before panel's own coordinates. */
export interface OverlayEdge {
  readonly edge: string;
  readonly kind: 'same' | 'redrawn' | 'ends' | 'moved';
  readonly place: 'front' | 'back' | 'top' | 'bottom' | 'other';
  /** The greatest move, outwards or upwards positive, and the two points that it is between. */
  readonly most: number;
  readonly from: Point;
  readonly to: Point;
}

/** What was found of panels that both versions have. */
export interface OverlayPanel {
  readonly panel: string;
  /** By how much the after version is moved to lie on the before one. */
  readonly laid: Vector;
  readonly edges: readonly OverlayEdge[];
}

/** A panel in both versions as it lies on paper; one of them is absent for a gusset that only the other has. */
export interface Overlaid {
  readonly name: string;
  readonly before?: Panel;
  readonly after?: Panel;
  readonly found?: OverlayPanel;
  readonly changed: readonly Changed[];
}

/** A stretch of an edge that changed, as it is now; what merely goes on along its line has no ground between. */
interface Changed {
  readonly edge: string;
  readonly line: Path;
  readonly between?: Path;
}

/** The panel of that name in both, the after one laid on the before one. */
export const overlaid = (name: string, before: Pattern, after: Pattern, found: readonly OverlayPanel[]): Overlaid => {
  const [was, is] = [before, after].map(({ panels }) => panels.find((panel) => panel.name === name));
  const one = found.find(({ panel }) => panel === name);
  const drawn = {
    ...(was ? { before: asDrawn(was) } : {}),
    ...(is ? { after: asDrawn(one ? movedPanel(is, one.laid) : is) } : {}),
  };
  return { name, ...drawn, ...(one ? { found: one } : {}), changed: (one?.edges ?? []).flatMap(changedIn(drawn)) };
};

const changedIn =
  ({ before, after }: Pick<Overlaid, 'before' | 'after'>) =>
  ({ edge, kind }: OverlayEdge): Changed[] => {
    const [former, now] = [before, after].map((panel) => panel?.edges.find(({ name }) => name === edge)?.path);
    if (former === undefined || now === undefined) return [];
    if (kind === 'ends') return addedEnds(former, now).map((line) => ({ edge, line }));
    return kind === 'moved' ? changedStretches(former, now).map((stretch) => ({ edge, ...stretch })) : [];
  };

/** The outlines of both versions, or of the one that there is. */
export const outlinesOf = ({ before, after }: Overlaid): Path[] =>
  [before, after].flatMap((panel) => (panel ? [outlineOf(panel)] : []));
