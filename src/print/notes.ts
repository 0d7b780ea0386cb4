/**
 * The notes at the front of a print: test squares, how to check and join the pages, which line is which,
 * the map of pages, what was changed last, cautions.
 */
import type { Point } from '../geometry/point.ts';
import { MM_PER_INCH } from '../pattern/format-length.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { mapBlock } from './page-map.ts';
import { drawArrow } from './draw-arrow.ts';
import type { Ink } from './ink.ts';
import { BONE, CUTTING, GRAIN, HAIR, LEVEL, NOTCH, STITCHING, TRIM, WAIST, type LineStyle } from './line-style.ts';
import type { PageLayout, Piece } from './page-layout.ts';
import type { PrintOptions } from './print-options.ts';
import { wrapText } from './wrap-text.ts';

/** Something of known height that can be drawn anywhere. */
export interface NotesBlock {
  readonly height: number;
  readonly draw: (ink: Ink, at: Point, firstTilePage: number) => void;
}

export interface NotesSubject {
  readonly pattern: Pattern;
  readonly options: PrintOptions;
  readonly layout: PageLayout;
  readonly pieces: readonly Piece[];
}

const TEXT = 3.7;
const LEADING = 1.38;
const GAP = 5;
const SHOWN_CHANGES = 6;
const LEAST_MAP = 40;
const MOST_MAP = 120;

/** The notes in pages of at most that size, the blocks of each page from its top down. */
export const notesPages = (subject: NotesSubject, width: number, height: number): NotesBlock[][] => {
  const title = titleBlock(subject, width);
  const squares = squareBlocks(width);
  const squaresHigh = squares.slice(0, -1).reduce((sum, block) => sum + block.height + GAP, 0);
  // The squares are on the first page even where that leaves no room for its title.
  const top = title.height + GAP + squaresHigh > height ? [...squares, title] : [title, ...squares];
  const before = [...top, keyBlock(width), joinBlock(subject, width)];
  const after = [changesBlock(subject, width), cautionsBlock(width)].filter((block) => block !== undefined);
  const used = [...before, ...after].reduce((sum, block) => sum + block.height + GAP, 0);
  const map = mapBlock(subject, width, Math.min(MOST_MAP, Math.max(LEAST_MAP, height - used)));
  const pages: NotesBlock[][] = [[]];
  let y = 0;
  for (const block of [...before, map, ...after]) {
    if (y > 0 && y + block.height > height) {
      pages.push([]);
      y = 0;
    }
    pages[pages.length - 1]!.push(block);
    y += block.height + GAP;
  }
  return pages;
};

export const drawNotes = (ink: Ink, blocks: readonly NotesBlock[], at: Point, firstTilePage: number): void => {
  let { y } = at;
  for (const block of blocks) {
    block.draw(ink, { x: at.x, y }, firstTilePage);
    y += block.height + GAP;
  }
};

/** A bold heading, then paragraphs; each with at most `most` lines. */
const textBlock = (heading: string, paragraphs: readonly string[], width: number, most = 50): NotesBlock => {
  const lines = paragraphs.flatMap((paragraph) => wrapText(paragraph, TEXT, width, most));
  return {
    height: (lines.length + 1) * TEXT * LEADING,
    draw: (ink, { x, y }) => {
      ink.text(heading, { x, y: y + TEXT }, { size: TEXT * 1.1, weight: 'bold' });
      lines.forEach((line, index) => {
        ink.text(line, { x, y: y + TEXT + (index + 1) * TEXT * LEADING }, { size: TEXT });
      });
    },
  };
};

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

const sideBySide = (left: NotesBlock, right: NotesBlock, by: number): NotesBlock => ({
  height: Math.max(left.height, right.height),
  draw: (ink, { x, y }, first) => {
    left.draw(ink, { x, y }, first);
    right.draw(ink, { x: x + by, y }, first);
  },
});

const KEY: readonly (readonly [string, LineStyle])[] = [
  ['cutting line', CUTTING],
  ['stitching line', STITCHING],
  ['waist', WAIST],
  ['another level', LEVEL],
  ['grain', GRAIN],
  ['bone', BONE],
  ['notch', NOTCH],
  ['where a page is cut', TRIM],
];

const keyBlock = (width: number): NotesBlock => {
  const columns = Math.max(1, Math.floor(width / 58));
  const rows = Math.ceil(KEY.length / columns);
  const line = TEXT * 1.55;
  return {
    height: rows * line,
    draw: (ink, { x, y }) => {
      KEY.forEach(([name, style], index) => {
        const left = x + (index % columns) * (width / columns);
        const base = y + TEXT + Math.floor(index / columns) * line;
        const length = name === 'notch' ? 6 : 18;
        const [from, to] = [
          { x: left, y: base - 1.3 },
          { x: left + length, y: base - 1.3 },
        ];
        ink.strokeLine([from, to], style);
        if (style === GRAIN) drawArrow(ink, to, from);
        ink.text(name, { x: left + 21, y: base }, { size: TEXT });
      });
    },
  };
};

const joinBlock = ({ layout }: NotesSubject, width: number): NotesBlock => {
  const joined = layout.sheets.some(({ tiles }) => tiles.length > 1);
  const how = joined
    ? 'Cut each page along its dashed lines (left and top), lay that edge on the thin line of the page before it, until the circles close, and glue or tape it down.'
    : 'No pages need joining.';
  const apart = joined && layout.sheets.length > 1 ? [`${how} Pages that the map shows apart are not joined.`] : [how];
  return textBlock('Joining the pages', apart, width);
};

const changesBlock = ({ options }: NotesSubject, width: number): NotesBlock | undefined => {
  const { changes } = options;
  if (changes.length === 0) return undefined;
  const shown = changes.slice(-SHOWN_CHANGES).map((change, index) => {
    const number = changes.length - Math.min(changes.length, SHOWN_CHANGES) + index + 1;
    return `${number}.  ${change}`;
  });
  return textBlock(changes.length > SHOWN_CHANGES ? `Last of ${changes.length} changes` : 'Changes', shown, width, 2);
};

const CAUTIONS = [
  'Make a mock-up first. Loosen the lacing at once if you are breathless, faint or numb, or if food or acid comes up. Take it off to sleep or to exercise.',
  'When pregnant, ill, or after an operation, ask a licensed clinician before lacing. So too before reducing a waist by more than a tenth.',
];

const cautionsBlock = (width: number): NotesBlock => textBlock('Take care', CAUTIONS, width);
