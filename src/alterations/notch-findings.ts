import { distance } from '../geometry/point.ts';
import { nearestPoint } from '../geometry/nearest-point.ts';
import { pathEnd, pathStart } from '../geometry/path.ts';
import { SAME_POINT } from '../geometry/tolerance.ts';
import type { Finding } from '../pattern/finding.ts';
import { edgeNamed } from '../pattern/look-up.ts';
import type { Panel } from '../pattern/panel.ts';

/** One warning for each notch whose edge no longer runs where it was, so that it went to the edge's end. */
export const notchFindings = (before: Panel, after: Panel): Finding[] =>
  after.notches.flatMap((notch, index) => {
    if (notch === before.notches[index]) return [];
    const { path } = edgeNamed(after, notch.edge);
    const atEnd = [pathStart(path), pathEnd(path)].some((end) => distance(end, notch.at) < SAME_POINT);
    const old = edgeNamed(before, notch.edge).path;
    const was = nearestPoint(old, before.notches[index]!.at).point;
    if (!atEnd || [pathStart(old), pathEnd(old)].some((end) => distance(end, was) < SAME_POINT)) return [];
    return [
      {
        weight: 'warning',
        kind: 'notch-at-end',
        where: `panel ${after.name}, edge ${notch.edge}`,
        message: 'a notch would lie past the end of the altered edge and was put at its end',
        cure: 'move the notch, and its mate on the neighbouring panel',
      },
    ];
  });
