import { isClosed, type Path } from '../geometry/path.ts';
import type { Panel } from './panel.ts';

/** The whole outline of a panel: closed, clockwise on paper. A panel without edges is a bug and throws. */
export const outlineOf = (panel: Panel): Path => {
  const outline = { segments: panel.edges.flatMap((edge) => edge.path.segments) };
  if (outline.segments.length === 0 || !isClosed(outline)) throw new Error(`panel ${panel.name} is not closed`);
  return outline;
};
