/**
 * The notes at the front of a print: test squares, how to check and join the pages, which line is which,
 * the map of pages, what was changed last, cautions.
 */
import type { Point } from '../geometry/point.ts';
import { MM_PER_INCH } from '../pattern/format-length.ts';
import type { Ink } from '../ink/ink.ts';
import { HAIR } from '../ink/line-style.ts';
import { GAP, heightOfAll, LEADING, sideBySide, stacked, TEXT, textBlock, type NotesBlock } from './notes-block.ts';
import { keyBlock } from './notes-key.ts';
import type { NotesSubject } from './notes-subject.ts';
import { mapBlock } from './page-map.ts';
import type { PageLayout } from './page-layout.ts';
import { wrapText } from '../ink/wrap-text.ts';

/** Stacked, the map is never lower than the first of these heights; old changes give way to the second. */
const LEAST_MAP = 40;
const WANTED_MAP = 75;
const MOST_MAP = 120;
/** Shares of the width that words may take where the map stands beside them. */
const SHARES = [0.5, 0.55, 0.6, 0.45];
const BETWEEN_COLUMNS = 8;
/** Words in columns narrower than this are tiresome to read. */
const LEAST_COLUMN = 75;

/** The notes in pages of at most that size, the blocks of each page from its top down. */
export const notesPages = (subject: NotesSubject, width: number, height: number): NotesBlock[][] => {
  const title = titleBlock(subject, width);
  const squares = squareBlocks(width);
  // The squares are on the first page even where that leaves no room for its title.
  const top =
    title.height + GAP + heightOfAll(squares.slice(0, -1)) > height ? [...squares, title] : [title, ...squares];
  const room = height - heightOfAll(top) - GAP;
  const settings = [
    mapBetween(subject, width, room, height),
    ...SHARES.map((share) => mapBeside(subject, width, share * width, room)),
  ].filter((setting) => setting !== undefined);
  const below = settings.reduce((best, next) => (next.worth > best.worth ? next : best));
  const pages: NotesBlock[][] = [[]];
  let y = 0;
  for (const block of [...top, ...below.blocks]) {
    if (y > 0 && y + block.height > height) {
      pages.push([]);
      y = 0;
    }
    pages[pages.length - 1]!.push(block);
    y += block.height + GAP;
  }
  return pages;
};

export const drawNotes = (ink: Ink, blocks: readonly NotesBlock[], at: Point, firstTilePage: number): void =>
  stacked(blocks).draw(ink, at, firstTilePage);

/** What stands below the squares: best is to show all changes, then the largest map (its scale is under 1). */
interface Setting {
  readonly worth: number;
  readonly blocks: readonly NotesBlock[];
}

/** The map between the words, over the whole width: possible on every page. */
const mapBetween = (subject: NotesSubject, width: number, room: number, page: number): Setting => {
  const [before, cautions] = [[keyFor(subject, width), joinBlock(subject, width)], cautionsBlock(width)];
  const words = heightOfAll([...before, cautions]) + GAP;
  const changesIn = (left: number): Changes | undefined => changesBlock(subject, width, left);
  const left = room - words - GAP;
  const [roomy, tight] = [changesIn(left - WANTED_MAP - GAP), changesIn(left - LEAST_MAP - GAP)];
  const least = (tight?.isWhole ? tight : roomy) ?? changesBlock(subject, width, page, 1);
  const wanted = left - heightOfAll(least?.blocks ?? []) - GAP;
  const map = mapBlock(subject, width, Math.min(MOST_MAP, Math.max(LEAST_MAP, wanted)));
  const changes = changesIn(left - map.height - GAP) ?? least;
  return {
    worth: (changes?.isWhole ? 1 : 0) + map.scale,
    blocks: [...before, map, ...(changes?.blocks ?? []), cautions],
  };
};

/** The words in a column and the map beside it, as high as the page allows; undefined where that leaves too little room. */
const mapBeside = (subject: NotesSubject, width: number, column: number, room: number): Setting | undefined => {
  if (column < LEAST_COLUMN) return undefined;
  const [before, cautions] = [[keyFor(subject, column), joinBlock(subject, column)], cautionsBlock(column)];
  const left = room - heightOfAll([...before, cautions]) - GAP;
  const changes = changesBlock(subject, column, left);
  if (left < 0 || !changes) return undefined;
  const by = column + BETWEEN_COLUMNS;
  const map = mapBlock(subject, width - by, room);
  return {
    worth: (changes.isWhole ? 1 : 0) + map.scale,
    blocks: [sideBySide(stacked([...before, ...changes.blocks, cautions]), map, by)],
  };
};

const isJoined = ({ sheets }: PageLayout): boolean => sheets.some(({ tiles }) => tiles.length > 1);

const keyFor = ({ pattern, layout }: NotesSubject, width: number): NotesBlock =>
  keyBlock(pattern.panels, isJoined(layout), width);

const TITLE = 9;

const titleBlock = ({ pattern, options, layout }: NotesSubject, width: number): NotesBlock => {
  const lines = wrapText(options.title, TITLE, width, 2, 'bold');
  const count = pattern.panels.length;
  const facts = [
    `${count} ${count === 1 ? 'panel' : 'panels'}${pattern.pieces === 'pairs' ? ', each cut twice, mirrored' : ''}`,
    `version ${options.hash.slice(0, 12)}`,
    `${layout.paper.name}${layout.paper.roll ? '' : layout.landscape ? ' landscape' : ' portrait'}`,
    `Staywright ${options.version}`,
  ].join('  ·  ');
  const factLines = wrapText(facts, TEXT, width);
  return {
    height: lines.length * TITLE * 1.25 + factLines.length * TEXT * LEADING,
    draw: (ink, { x, y }) => {
      lines.forEach((line, index) => {
        ink.text(line, { x, y: y + TITLE * (0.85 + index * 1.25) }, { size: TITLE, weight: 'bold' });
      });
      const top = y + lines.length * TITLE * 1.25;
      factLines.forEach((line, index) => ink.text(line, { x, y: top + TEXT * (1 + index * LEADING) }, { size: TEXT }));
    },
  };
};

const SQUARE_MM = 50;
const SQUARE_IN = 2 * MM_PER_INCH;
const BESIDE = 6;

const CHECK = [
  'Print at actual size (100 %), with no fitting to the page.',
  'Measure both squares, across and down, from the middle of a line to the middle of the line opposite.',
  'If a side is off by more than 0.25 mm (1/100 in), do not cut: a waist would be off by several times that.',
  'A square of about 48 or 47 mm was shrunk to fit the page.',
];

/** The squares side by side with their words beside them; on a narrow page one under the other, each a block of its own. */
const squareBlocks = (width: number): NotesBlock[] => {
  const pair = SQUARE_MM + BESIDE + SQUARE_IN;
  const room = width - pair - BESIDE;
  const squares = [squareBlock(SQUARE_MM, '50 mm'), squareBlock(SQUARE_IN, '2 in')] as const;
  const text = textBlock('Check the size first', CHECK, room >= LEAST_TEXT ? room : width);
  if (pair > width) return [...squares, text];
  const both = sideBySide(squares[0], squares[1], SQUARE_MM + BESIDE);
  return room >= LEAST_TEXT ? [sideBySide(both, text, pair + BESIDE)] : [both, text];
};

const squareBlock = (side: number, name: string): NotesBlock => ({
  height: side,
  draw: (ink, { x, y }) => {
    ink.strokeBox(x, y, side, side, HAIR);
    ink.text(name, { x: x + side / 2, y: y + side / 2 + 1 }, { size: 7, weight: 'bold', align: 'middle' });
    ink.text('each side', { x: x + side / 2, y: y + side / 2 + 7 }, { size: TEXT, align: 'middle' });
  },
});

const LEAST_TEXT = 45;

const joinBlock = ({ layout }: NotesSubject, width: number): NotesBlock => {
  const joined = isJoined(layout);
  const how = joined
    ? 'Cut each page along its dashed lines (left and top), lay that edge on the thin line of the page before it, until the circles close, and glue or tape it down.'
    : 'No pages need joining.';
  const apart = joined && layout.sheets.length > 1 ? [`${how} Pages that the map shows apart are not joined.`] : [how];
  return textBlock('Joining the pages', apart, width);
};

/** A command longer than this many lines ends with an ellipsis. */
const LONGEST_CHANGE = 8;
/** Fewer of the last changes than this are worth a page of their own. */
const LEAST_CHANGES = 6;

interface Changes {
  /** One, or none where nothing was changed. */
  readonly blocks: readonly NotesBlock[];
  readonly isWhole: boolean;
}

/** As many of the last changes as the room takes; undefined where it takes fewer than `least`. */
const changesBlock = (
  { options }: NotesSubject,
  width: number,
  room: number,
  least = LEAST_CHANGES,
): Changes | undefined => {
  const { changes } = options;
  if (changes.length === 0) return { blocks: [], isWhole: true };
  const numbered = changes.map((change, index) => `${index + 1}.  ${change}`);
  let [first, lines] = [changes.length, 1];
  while (first > 0) {
    lines += wrapText(numbered[first - 1]!, TEXT, width, LONGEST_CHANGE).length;
    if (lines * TEXT * LEADING > room) break;
    first--;
  }
  if (changes.length - first < Math.min(least, changes.length)) return undefined;
  const heading = first > 0 ? `Last of ${changes.length} changes` : 'Changes';
  return { blocks: [textBlock(heading, numbered.slice(first), width, LONGEST_CHANGE)], isWhole: first === 0 };
};

const CAUTIONS = [
  'Make a mock-up first. Loosen the lacing at once if you are breathless, faint or numb, or if food or acid comes up. Take it off to sleep or to exercise.',
  'When pregnant, ill, or after an operation, ask a licensed clinician before lacing. So too before reducing a waist by more than a tenth.',
];

const cautionsBlock = (width: number): NotesBlock => textBlock('Take care', CAUTIONS, width);
