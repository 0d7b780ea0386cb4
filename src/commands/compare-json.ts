import { degreesOf } from '../geometry/degrees.ts';
import {
  changeOf,
  type Both,
  type Comparison,
  type EdgeComparison,
  type PanelComparison,
  type SeamComparison,
} from '../measure/compare/comparison.ts';
import type { Version, Versions } from './compare-versions.ts';

const both = (value: Both): Record<string, number | null> => ({
  before: value.before ?? null,
  after: value.after ?? null,
  change: changeOf(value) ?? null,
});

const inDegrees = ({ before, after }: Both): Record<string, number | null> =>
  both({
    before: before === undefined ? undefined : degreesOf(before),
    after: after === undefined ? undefined : degreesOf(after),
  });

/** All that was compared, the same figures as in words and those that did not change. */
export const compareJson = (found: Comparison, versions: Versions): Record<string, unknown> => ({
  same: !found.differs,
  before: versionJson(versions.before, versions.names.before),
  after: versionJson(versions.after, versions.names.after),
  laid_by: found.sharesFrame ? 'own coordinates' : 'waist',
  line: found.line,
  ...(found.half === undefined ? {} : { half: found.half }),
  panels: found.panels.map(panelJson),
  gussets: { only_before: found.gussets.onlyBefore, only_after: found.gussets.onlyAfter },
  seams: found.seams.map(seamJson),
  levels: found.girths.map((girth) => ({ level: girth.level, girth_mm: both(girth) })),
});

const versionJson = ({ sheet, hash, own }: Version, file: string) => ({
  file,
  name: sheet.pattern.name,
  hash,
  only_in_its_record: own,
});

const panelJson = (panel: PanelComparison) => ({
  panel: panel.panel,
  ...(panel.side === undefined ? {} : { side: panel.side }),
  after_moved_by_mm: { across: panel.laid.dx, down: panel.laid.dy },
  edges: panel.edges.map(edgeJson),
  levels: panel.levels.map(({ level, height, width }) => ({ level, height_mm: both(height), width_mm: both(width) })),
  corners: panel.corners.map(({ edge, next, ...angle }) => ({ edge, next, angle_degrees: inDegrees(angle) })),
  notches: panel.notches.map(({ edge, from, ...place }) => ({
    edge,
    [from === 'waist' ? 'above_waist_mm' : 'along_edge_mm']: both(place),
  })),
  grain_leans_degrees: inDegrees(panel.grain),
  bones: { before: panel.bones.before, after: panel.bones.after, apart_mm: panel.bonesApart },
  openings: panel.slits.map(({ gusset, edge, height, length, apart }) => ({
    gusset,
    ...(edge === undefined ? {} : { edge }),
    above_waist_mm: both(height),
    length_mm: both(length),
    apart_mm: apart,
  })),
});

const edgeJson = (edge: EdgeComparison) => ({
  edge: edge.edge,
  place: edge.place,
  found: edge.kind === 'ends' ? 'other ends' : edge.kind,
  apart_mm: edge.apart,
  height_mm: edge.height ?? null,
  ...(edge.near === undefined ? {} : { at_end: edge.near }),
  most_mm: edge.most,
  ...(edge.levels.length === 0
    ? {}
    : { levels: edge.levels.map(({ level, outwards }) => ({ level, outwards_mm: outwards ?? null })) }),
  ends: edge.ends.map(({ at, up, outwards, longer }) => ({ at, up_mm: up, outwards_mm: outwards, longer_mm: longer })),
  length_mm: both(edge.length),
  allowance_mm: both(edge.allowance),
  allowance_corners: { before: edge.corners.before ?? null, after: edge.corners.after ?? null },
});

const seamJson = ({ seam, side, edges, differences }: SeamComparison) => ({
  seam,
  ...(side === undefined ? {} : { side }),
  edges: edges.map(({ panel, above, below, whole }) => ({
    panel,
    above_mm: both(above),
    below_mm: both(below),
    whole_mm: both(whole),
  })),
  differences: differences.map(({ part, ...difference }) => ({ part, by_mm: both(difference) })),
});
