import { joinBoxes, pathBox } from '../geometry/box.ts';
import type { Matrix } from '../geometry/matrix.ts';
import type { Path } from '../geometry/path.ts';
import type { Point } from '../geometry/point.ts';
import { transformPath, transformPoint } from '../geometry/transform-path.ts';
import type { Vector } from '../geometry/vector.ts';
import { WASH } from '../ink/colour.ts';
import type { LineStyle } from '../ink/line-style.ts';
import type { Mark, Scene, Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { shortLength } from '../pattern/format-length.ts';
import { findLevel, levelNames } from '../pattern/look-up.ts';
import { asDrawn } from '../pattern/mirror-panel.ts';
import { movedPanel } from '../pattern/moved-panel.ts';
import { outlineOf } from '../pattern/outline.ts';
import type { Edge, Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { enlargedScene } from './enlarged-scene.ts';
import { CHANGED, FORMER, HAIR, LEADING, LEVEL, MARGIN, MARK, OUTLINE, TYPE, WAIST } from './hand.ts';
import { footing, heading, HEADING_HEIGHT, headingWidth } from './heading.ts';
import { centred, straight } from './marks.ts';
import { amountWidth, amountWords, edgeAmountWords, type Amount } from './overlay-amounts.ts';
import { legend, LEGEND_HEIGHT, legendWidth } from './overlay-legend.ts';
import { addedEnds, changedStretches, SEEN_APART } from './overlay-stretches.ts';
import { panelName } from './panel-drawing.ts';
import { panelsAsWorn, waistLine, type WornRow } from './panels-as-worn.ts';
import { rowOfPanels, type PanelRow } from './row-of-panels.ts';
import { spreadApart } from './spread-apart.ts';

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

export interface OverlayOptions {
  readonly title: string;
  /** What the two lines are called in the legend: names and hashes. */
  readonly before: string;
  readonly after: string;
  readonly units: Units;
  readonly sharesFrame: boolean;
}

/** At true size a picture is looked at from farther off than a sheet of A3: everything is drawn so many times as large. */
const LARGER = 1.25;

/** The least room between two panels; beside the row; between two rows. */
const [LEAST_GAP, COLUMN_GAP, ROW_GAP] = [14, 9, 16] as const;

/** Above and below a row for the amounts of top and bottom edges. */
const EDGE_WORDS = TYPE.figure * LEADING * 2;

/** A panel in both versions as it lies on paper; one of them is absent for a gusset that only the other has. */
interface Overlaid {
  readonly name: string;
  readonly before?: Panel;
  readonly after?: Panel;
  readonly found?: OverlayPanel;
}

interface LaidRow {
  readonly worn: WornRow;
  readonly panels: readonly Overlaid[];
  readonly row: PanelRow;
}

/**
 * Both versions laid over each other at true size, panel by panel on the waist line as they lie round the body: the former line thin and
 * dashed, the line as it is heavy, and heavier still where it moved by more than 0.1 mm, with the ground between the two washed and the
 * greatest amount beside it. A line lies on the picture within 0.001 mm of where it lies on the panel.
 */
export const overlayScene = (
  before: Pattern,
  after: Pattern,
  found: readonly OverlayPanel[],
  options: OverlayOptions,
): Scene => {
  const { title, units, sharesFrame } = options;
  const rows = laidRows(before, after, found, units);
  const changed = `where it moved by more than ${shortLength(SEEN_APART, 'mm')}`;
  const says = { before: `before: ${options.before}`, after: `after: ${options.after}`, changed };
  const facts = ['true size', `laid on each other ${sharesFrame ? 'in their own coordinates' : 'by their waists'}`];
  const width =
    Math.max(
      ...rows.map(({ row }) => row.right + COLUMN_GAP),
      headingWidth(title, facts),
      legendWidth([says.before, says.after, says.changed]),
    ) + MARGIN;
  const foot = footing(footWords(units), { top: rows.at(-1)!.row.bottom + EDGE_WORDS, width });
  const scene: Scene = {
    title,
    width,
    height: foot.bottom,
    marks: [
      ...heading(title, facts),
      ...legend(says, HEADING_HEIGHT),
      ...rows.map(({ row }) => straight({ x: MARGIN, y: row.waist }, { x: width - MARGIN, y: row.waist }, HAIR)),
      ...rows.flatMap(({ panels, row }) => panels.flatMap((panel, at) => washes(panel, row.places[at]!))),
      ...rows.flatMap(({ panels, row }) => panels.flatMap((panel, at) => linesOf(panel, row.places[at]!))),
      ...rows.flatMap(({ panels, row }) => panels.map((panel, at) => nameOf(panel, row.places[at]!))),
      ...rows.flatMap((laid) => levelWords(after, laid)),
      ...rows.flatMap((laid) => amountsOf(laid, units)),
      ...foot.words,
    ],
  };
  return enlargedScene(scene, LARGER);
};

const footWords = (units: Units): string =>
  [
    'Beside a line that moved stands its greatest move: of a seam + outwards, where the panel became larger, - inwards; of a top or bottom edge + up, - down.',
    units === 'in' ? 'In inches; after the nearest sixteenth stands what is left over.' : 'In millimetres.',
  ].join(' ');

/** The rows one below the other; gussets that only the former version has come last. */
const laidRows = (before: Pattern, after: Pattern, found: readonly OverlayPanel[], units: Units): LaidRow[] => {
  const gone = before.panels.filter(({ name }) => after.panels.every((panel) => panel.name !== name));
  const worn = panelsAsWorn({ ...after, panels: [...after.panels, ...gone] });
  const drawn = worn.map(({ panels }) => panels.map(({ name }) => overlaid(name, before, after, found)));
  const names = levelNames(after).map((name) => wordsWidth(name, TYPE.figure));
  const left = MARGIN + Math.max(0, ...names) + COLUMN_GAP;
  const widest = drawn
    .flat()
    .flatMap(({ found: one }) => toldEdges(one, units).map((edge) => amountWidth(amountText(edge, units))));
  const gap = Math.max(LEAST_GAP, ...widest.map((words) => words + 8));
  let top = HEADING_HEIGHT + LEGEND_HEIGHT + EDGE_WORDS;
  return worn.map((each, at) => {
    const items = drawn[at]!.map((panel) => ({
      box: joinBoxes(outlinesOf(panel).map(pathBox)),
      waist: waistLine(panel.before ?? panel.after!),
    }));
    const row = rowOfPanels(items, { left: left + gap, top, scale: 1 / LARGER, gap });
    top = row.bottom + ROW_GAP + 2 * EDGE_WORDS;
    return { worn: each, panels: drawn[at]!, row: { ...row, right: row.right + gap } };
  });
};

const overlaid = (name: string, before: Pattern, after: Pattern, found: readonly OverlayPanel[]): Overlaid => {
  const [was, is] = [before, after].map(({ panels }) => panels.find((panel) => panel.name === name));
  const one = found.find(({ panel }) => panel === name);
  return {
    name,
    ...(was ? { before: asDrawn(was) } : {}),
    ...(is ? { after: asDrawn(one ? movedPanel(is, one.laid) : is) } : {}),
    ...(one ? { found: one } : {}),
  };
};

const outlinesOf = ({ before, after }: Overlaid): Path[] =>
  [before, after].flatMap((panel) => (panel ? [outlineOf(panel)] : []));

const edgeNamed = (panel: Panel | undefined, name: string): Edge | undefined =>
  panel?.edges.find((edge) => edge.name === name);

/** A stretch of an edge that changed, on the picture; what merely goes on along its line has no ground. */
interface Changed {
  readonly edge: string;
  readonly line: Path;
  readonly between?: Path;
}

const stretchesOf = ({ before, found, after }: Overlaid, place: Matrix): Changed[] =>
  (after?.edges ?? []).flatMap(({ name: edge, path }): Changed[] => {
    const was = edgeNamed(before, edge);
    const kind = found?.edges.find((one) => one.edge === edge)?.kind;
    if (was === undefined) return [];
    const former = transformPath(was.path, place);
    const now = transformPath(path, place);
    if (kind === 'ends') return addedEnds(former, now).map((line) => ({ edge, line }));
    return kind === 'moved' ? changedStretches(former, now).map((stretch) => ({ edge, ...stretch })) : [];
  });

/** The ground between the two lines; of a gusset that only one version has, all of it. */
const washes = (panel: Overlaid, place: Matrix): Mark[] => {
  if (panel.found === undefined) {
    const path = transformPath(outlinesOf(panel)[0]!, place);
    return [{ kind: 'area', path, colour: WASH, of: `${panel.name}, only ${panel.after ? 'after' : 'before'}` }];
  }
  return stretchesOf(panel, place).flatMap(({ edge, between }): Mark[] =>
    between === undefined ? [] : [{ kind: 'area', path: between, colour: WASH, of: `${panel.name} ${edge}, moved` }],
  );
};

/** The former lines, then over them those of now, then what changed of these. */
const linesOf = (panel: Overlaid, place: Matrix): Mark[] => {
  const { name, before, after } = panel;
  const stroke = (path: Path, style: LineStyle, of: string): Mark => ({
    kind: 'stroke',
    path: transformPath(path, place),
    style,
    of,
  });
  const isNew = panel.found === undefined;
  return [
    ...[after ?? before!].flatMap((own) => levelLines(own, place)),
    ...(before ? movedLevels(panel, place) : []),
    ...(before?.edges ?? []).map((edge) => stroke(edge.path, FORMER, `${name} ${edge.name}, before`)),
    ...(after?.edges ?? []).map((edge) => stroke(edge.path, isNew ? CHANGED : OUTLINE, `${name} ${edge.name}, after`)),
    ...(isNew ? [] : stretchesOf(panel, place)).map(({ edge, line }): Mark => ({
      kind: 'stroke',
      path: line,
      style: CHANGED,
      of: `${name} ${edge}, changed`,
    })),
    ...(after?.notches ?? []).map(({ at, inner }) =>
      straight(transformPoint(at, place), transformPoint(inner, place), MARK, `${name} notch, after`),
    ),
    ...(after?.slits ?? []).map(({ at, to }) =>
      straight(transformPoint(at, place), transformPoint(to, place), MARK, `${name} opening, after`),
    ),
  ];
};

/** Across the panel only where there is room for it in both versions. */
const nameOf = ({ before, after }: Overlaid, place: Matrix): Words => {
  const names = [after, before].flatMap((panel) => (panel ? [panelName(panel, place)] : []));
  return names.find(({ angle }) => angle !== undefined) ?? names[0]!;
};

const levelLine = ({ name, levels }: Panel, level: string, place: Matrix, style: LineStyle, when: string): Mark[] =>
  levels
    .filter((one) => one.name === level)
    .map(({ y, fromX, toX }) =>
      straight(
        transformPoint({ x: fromX, y }, place),
        transformPoint({ x: toX, y }, place),
        style,
        `${name} ${level}, ${when}`,
      ),
    );

const levelLines = (panel: Panel, place: Matrix): Mark[] =>
  panel.levels.flatMap(({ name }) => levelLine(panel, name, place, name === 'waist' ? WAIST : LEVEL, 'after'));

/** Levels as they lay, where they lie elsewhere now. */
const movedLevels = ({ before, after }: Overlaid, place: Matrix): Mark[] =>
  before!.levels.flatMap(({ name, y }) => {
    const now = after && findLevel(after, name);
    return now && Math.abs(now.y - y) > SEEN_APART ? levelLine(before!, name, place, FORMER, 'before') : [];
  });

/** The names of the levels at the far left, at their heights on the row's first panel that has them. */
const levelWords = (after: Pattern, { panels, row }: LaidRow): Words[] => {
  const told = levelNames(after).flatMap((name) => {
    const at = panels.findIndex((panel) => panel.after && findLevel(panel.after, name));
    const level = at < 0 ? undefined : findLevel(panels[at]!.after!, name);
    return level ? [{ name, y: transformPoint({ x: 0, y: level.y }, row.places[at]!).y }] : [];
  });
  const heights = spreadApart(
    told.map(({ y }) => y),
    TYPE.figure * LEADING,
  );
  return told.map(({ name }, at) =>
    centred({ text: name, at: { x: MARGIN, y: heights[at]! }, size: TYPE.figure, backed: true }),
  );
};

/** What moved enough to be seen, by an amount that is not told as nothing. */
const toldEdges = (found: OverlayPanel | undefined, units: Units): OverlayEdge[] =>
  (found?.edges ?? []).filter(
    (edge) => edge.kind === 'moved' && Math.abs(edge.most) > SEEN_APART && /[1-9]/.test(amountText(edge, units)),
  );

const amountText = ({ most, place }: OverlayEdge, units: Units): string => {
  const text = shortLength(most, units, true);
  return most > 0 && place !== 'other' ? `+${text}` : text;
};

/** Every amount beside its edge; those that share a gap one below the other. */
const amountsOf = ({ panels, row }: LaidRow, units: Units): Words[] => {
  const amounts = panels.flatMap((panel, at) =>
    panelAmounts(panel, row.places[at]!, units).map((amount) => ({ amount, at })),
  );
  const gaps = Array.from({ length: panels.length + 1 }, (_, gap) =>
    amounts
      .filter(({ amount, at }) => (amount.side === 'left' && at === gap) || (amount.side === 'right' && at === gap - 1))
      .map(({ amount }) => amount),
  );
  const across = amounts.map(({ amount }) => amount).filter(({ side }) => side === 'top' || side === 'bottom');
  return [...gaps.flatMap(amountWords), ...edgeAmountWords(across)];
};

const panelAmounts = (panel: Overlaid, place: Matrix, units: Units): Amount[] => {
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
