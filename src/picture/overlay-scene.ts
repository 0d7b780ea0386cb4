import { joinBoxes, pathBox } from '../geometry/box.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import type { Scene, Words } from '../ink/scene.ts';
import { cutText } from '../ink/cut-text.ts';
import { wordsWidth } from '../ink/words-box.ts';
import { shortLength } from '../pattern/format-length.ts';
import { findLevel, levelNames } from '../pattern/look-up.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern, Units } from '../pattern/pattern.ts';
import { HAIR, LEADING, MARGIN, TYPE } from './hand.ts';
import { footing, heading, HEADING_HEIGHT, headingWidth } from './heading.ts';
import { centred, straight } from './marks.ts';
import { amountWidth, amountWords, edgeAmountWords } from './overlay-amounts.ts';
import { legend, LEGEND_HEIGHT, legendWidth } from './overlay-legend.ts';
import { overlayGrounds, overlayLines, overlayName } from './overlay-lines.ts';
import { outlinesOf, overlaid, type Overlaid, type OverlayPanel } from './overlay-panel.ts';
import { SEEN_APART } from './overlay-stretches.ts';
import { panelAmounts, signedText, toldMoves } from './overlay-told.ts';
import { panelsAsWorn, waistLine } from './panels-as-worn.ts';
import { readableRows } from './readable-rows.ts';
import { commonScale, rowOfPanels, scaleWords, type PanelRow, type RowItem } from './row-of-panels.ts';
import { spreadApart } from './spread-apart.ts';

export interface OverlayOptions {
  readonly title: string;
  /** What else stands below the title: the command that made the one of the other. */
  readonly facts?: readonly string[];
  /** What the two lines are called in the legend: names and hashes. */
  readonly before: string;
  readonly after: string;
  readonly units: Units;
  readonly sharesFrame: boolean;
}

/** The largest that a row of panels is drawn. */
const ROOM = { width: 340, height: 230 } as const;

/** The least room between two panels; beside the row; between two rows. */
const [LEAST_GAP, COLUMN_GAP, ROW_GAP] = [14, 9, 16] as const;

/** Above and below a row for the amounts of top and bottom edges. */
const EDGE_WORDS = TYPE.figure * LEADING * 2;

interface LaidRow {
  readonly panels: readonly Overlaid[];
  readonly row: PanelRow;
}

/**
 * Both versions laid over each other, panel by panel on the waist line as they lie round the body: the former line thin and
 * dashed, the line as it is heavy, and heavier still where it moved by more than 0.1 mm, with the ground between the two washed and the
 * greatest amount beside it. A line lies on the picture within 0.001 mm of where it lies on the panel.
 */
export const overlayScene = (
  before: Pattern,
  after: Pattern,
  found: readonly OverlayPanel[],
  options: OverlayOptions,
): Scene => {
  const { units, sharesFrame } = options;
  const title = cutText(options.title, TYPE.title, ROOM.width, 'bold');
  const rows = laidRows(before, after, found, units);
  const changed = `where it moved by more than ${shortLength(SEEN_APART, 'mm')}`;
  const says = {
    before: versionLine(`before: ${options.before}`),
    after: versionLine(`after: ${options.after}`),
    changed,
  };
  const facts = [
    ...(options.facts ?? []).map((fact) => cutText(fact, TYPE.figure, ROOM.width * 0.7)),
    `scale ${scaleWords(rows[0]!.row.scale)}`,
    `laid on each other ${sharesFrame ? 'in their own coordinates' : 'by their waists'}`,
  ];
  const width =
    Math.max(
      ...rows.map(({ row }) => row.right + COLUMN_GAP),
      headingWidth(title, facts),
      legendWidth([says.before, says.after, says.changed]),
    ) + MARGIN;
  const foot = footing(footWords(units), { top: rows.at(-1)!.row.bottom + EDGE_WORDS, width });
  return {
    title: options.title,
    width,
    height: foot.bottom,
    marks: [
      ...heading(title, facts),
      ...legend(says, HEADING_HEIGHT),
      ...rows.map(({ row }) => straight({ x: MARGIN, y: row.waist }, { x: width - MARGIN, y: row.waist }, HAIR)),
      ...rows.flatMap(({ panels, row }) => panels.flatMap((panel, at) => overlayGrounds(panel, row.places[at]!))),
      ...rows.flatMap(({ panels, row }) => panels.flatMap((panel, at) => overlayLines(panel, row.places[at]!))),
      ...rows.flatMap(({ panels, row }) => panels.map((panel, at) => overlayName(panel, row.places[at]!))),
      ...rows.flatMap((laid) => levelWords(after, laid, units)),
      ...rows.flatMap((laid) => amountsOf(laid, units)),
      ...foot.words,
    ],
  };
};

const versionLine = (text: string): string => cutText(text, TYPE.figure, ROOM.width - 20);

const footWords = (units: Units): string =>
  [
    'Beside each stretch that moved stands its greatest move: of a seam outwards (+, larger) or inwards (-), of a top or bottom edge or a level up (+) or down (-).',
    units === 'in' ? 'In inches; after the nearest sixteenth stands what is left over.' : 'In millimetres.',
  ].join(' ');

/** The rows one below the other; gussets that only the former version has come last. */
const laidRows = (before: Pattern, after: Pattern, found: readonly OverlayPanel[], units: Units): LaidRow[] => {
  const gone = before.panels.filter(({ name }) => after.panels.every((panel) => panel.name !== name));
  const both = { ...after, panels: [...after.panels, ...gone] };
  const drawn = new Map(both.panels.map(({ name }) => [name, overlaid(name, before, after, found)]));
  const widest = [...drawn.values()].flatMap((panel) => toldMoves(panel, units).map(({ text }) => amountWidth(text)));
  const gap = Math.max(LEAST_GAP, ...widest.map((words) => words + 8));
  const itemOf = ({ name }: Panel): RowItem => {
    const panel = drawn.get(name)!;
    return { box: joinBoxes(outlinesOf(panel).map(pathBox)), waist: waistLine(panel.before ?? panel.after!) };
  };
  const worn = readableRows(panelsAsWorn(both), itemOf, { ...ROOM, gap });
  const items = worn.map(({ panels }) => panels.map(itemOf));
  const scale = commonScale(items, { ...ROOM, gap });
  const names = [...drawn.values()].flatMap((panel) => toldLevels(panel, units)).map(levelWidth);
  const left = MARGIN + Math.max(0, ...names) + COLUMN_GAP;
  let top = HEADING_HEIGHT + LEGEND_HEIGHT + EDGE_WORDS;
  return worn.map(({ panels }, at) => {
    const row = rowOfPanels(items[at]!, { left: left + gap, top, scale, gap });
    top = row.bottom + ROW_GAP + 2 * EDGE_WORDS;
    return { panels: panels.map(({ name }) => drawn.get(name)!), row: { ...row, right: row.right + gap } };
  });
};

/** A level by its name, and by how much it went up or down where that can be seen. */
interface ToldLevel {
  readonly name: string;
  readonly amount: string;
  /** In the coordinates of the former panel. */
  readonly y: number;
}

const toldLevels = ({ before, after }: Overlaid, units: Units): ToldLevel[] =>
  (after?.levels ?? []).map(({ name, y }) => {
    const up = (before && findLevel(before, name)?.y) ?? y;
    const amount = Math.abs(up - y) > SEEN_APART ? signedText(up - y, units) : '';
    return { name, amount, y };
  });

/** Between a level's name and its amount. */
const WORD_SPACE = 2;

const levelWidth = ({ name, amount }: ToldLevel): number =>
  wordsWidth(name, TYPE.figure) + (amount === '' ? 0 : WORD_SPACE + amountWidth(amount));

/** The names of the levels at the far left, at their heights on the row's first panel that has them. */
const levelWords = (after: Pattern, { panels, row }: LaidRow, units: Units): Words[] => {
  const levels = panels.map((panel) => toldLevels(panel, units));
  const told = levelNames(after).flatMap((name) => {
    const at = levels.findIndex((own) => own.some((level) => level.name === name));
    const level = levels[at]?.find((one) => one.name === name);
    return level ? [{ ...level, height: transformPoint({ x: 0, y: level.y }, row.places[at]!).y }] : [];
  });
  const heights = spreadApart(
    told.map(({ height }) => height),
    TYPE.figure * LEADING,
  );
  return told.flatMap(({ name, amount }, at) => {
    const [size, y] = [TYPE.figure, heights[at]!];
    const beside = MARGIN + wordsWidth(name, size) + WORD_SPACE;
    return [
      centred({ text: name, at: { x: MARGIN, y }, size, backed: true }),
      ...(amount === '' ? [] : [centred({ text: amount, at: { x: beside, y }, size, weight: 'bold', backed: true })]),
    ];
  });
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
