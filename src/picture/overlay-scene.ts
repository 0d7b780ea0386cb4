import { joinBoxes, pathBox } from '../geometry/box.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import type { Scene, Words } from '../ink/scene.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { shortLength } from '../pattern/format-length.ts';
import { findLevel, levelNames } from '../pattern/look-up.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { enlargedScene } from './enlarged-scene.ts';
import { HAIR, LEADING, MARGIN, TYPE } from './hand.ts';
import { footing, heading, HEADING_HEIGHT, headingWidth } from './heading.ts';
import { centred, straight } from './marks.ts';
import { amountWidth, amountWords, edgeAmountWords } from './overlay-amounts.ts';
import { legend, LEGEND_HEIGHT, legendWidth } from './overlay-legend.ts';
import { overlayGrounds, overlayLines, overlayName } from './overlay-lines.ts';
import { outlinesOf, overlaid, type Overlaid, type OverlayPanel } from './overlay-panel.ts';
import { SEEN_APART } from './overlay-stretches.ts';
import { amountText, panelAmounts, toldEdges } from './overlay-told.ts';
import { panelsAsWorn, waistLine, type WornRow } from './panels-as-worn.ts';
import { rowOfPanels, type PanelRow } from './row-of-panels.ts';
import { spreadApart } from './spread-apart.ts';

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
      ...rows.flatMap(({ panels, row }) => panels.flatMap((panel, at) => overlayGrounds(panel, row.places[at]!))),
      ...rows.flatMap(({ panels, row }) => panels.flatMap((panel, at) => overlayLines(panel, row.places[at]!))),
      ...rows.flatMap(({ panels, row }) => panels.map((panel, at) => overlayName(panel, row.places[at]!))),
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
