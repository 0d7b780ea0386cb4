import type { Point } from '../geometry/point.ts';
import type { Panel } from '../pattern/panel.ts';
import type { Pattern } from '../pattern/pattern.ts';
import { pointsBox } from '../geometry/box.ts';
import { blockAt, type TextBlock, type Words } from './text-block.ts';

/** Sizes of the em in millimetres: capitals are about three quarters of it, so that they read at arm's length. */
const NAME = 9;
const GUSSET_NAME = 6;
const CUT = 5.2;
const NOTE = 3.4;
/** Nothing is printed smaller than this, however narrow the panel. */
const LEAST = 2.6;

const SIZES = [1, 0.85, 0.7, 0.6, 0.5, 0.4, 0.3];
const HEIGHTS = [0.36, 0.3, 0.42, 0.24, 0.48, 0.18, 0.55, 0.62, 0.7, 0.78, 0.12, 0.86];
const ASIDE = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];

/**
 * What a panel is, how often it is cut, which line is which, which version it belongs to: places for it, the best first. On a gusset
 * too narrow for all of that its name and how often it is cut, as the rest stands on the panels beside it.
 */
export function* panelTitles(
  pattern: Pattern,
  panel: Panel,
  hash: string,
  outline: readonly Point[],
): Generator<TextBlock> {
  const words = wordsOf(pattern, panel, hash);
  yield* titlePlaces(words, outline);
  if (panel.gusset) yield* titlePlaces(words.slice(0, 2), outline);
}

function* titlePlaces(words: readonly Words[], outline: readonly Point[]): Generator<TextBlock> {
  const box = pointsBox(outline);
  for (const size of SIZES) {
    // Before words get small they may stand upright, and then be larger.
    for (const [angle, factor] of size > 0.65
      ? ([[0, size]] as const)
      : ([
          [0, size],
          [-Math.PI / 2, size * 1.5],
        ] as const)) {
      const sized = words.map(({ text, weight, size: full }): Words => {
        return { text, weight, size: Math.max(Math.min(LEAST, full), full * factor) };
      });
      const { spot } = blockAt(sized, { x: 0, y: 0 }, angle);
      for (const down of HEIGHTS) {
        for (const aside of ASIDE) {
          const middle = { x: box.minX + aside * (box.maxX - box.minX), y: box.minY + down * (box.maxY - box.minY) };
          yield { words: sized, spot: { ...spot, middle } };
        }
      }
    }
  }
}

const wordsOf = (pattern: Pattern, panel: Panel, hash: string): Words[] => [
  { text: panel.name, size: panel.gusset ? GUSSET_NAME : NAME, weight: 'bold' },
  { text: pattern.pieces === 'pairs' ? 'cut 2, mirrored' : 'cut 1', size: CUT, weight: 'regular' },
  { text: whichLine(panel), size: NOTE, weight: 'regular' },
  ...(panel.grain ? [] : [{ text: 'no grainline', size: NOTE, weight: 'regular' } as const]),
  // A gusset is small: what it belongs to stands on every panel beside it.
  ...(panel.gusset ? [] : [{ text: pattern.name, size: NOTE, weight: 'regular' } as const]),
  { text: `version ${hash.slice(0, 8)}`, size: NOTE, weight: 'regular' },
];

/** Which line is which: it is the question that costs mock-ups. */
const whichLine = (panel: Panel): string => {
  if (panel.cutting) return 'with seam allowance';
  return panel.line === 'cutting' ? 'outline: cutting line' : 'net, no seam allowance';
};
