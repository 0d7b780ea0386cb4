import type { Finding } from '../../pattern/finding.ts';
import type { ScanScale } from '../traced.ts';
import type { NominalScale } from './nominal-scale.ts';

/** What scanners are set to; and, as a share, how far their truth may lie from it. */
const SETTINGS = [72, 75, 96, 100, 120, 144, 150, 200, 240, 250, 300, 350, 360, 400, 500, 600, 720, 800, 1200];
const OFF = 0.025;

/**
 * Told where, by the square, the scanner was set neither to what was typed or the file says nor, where nothing was typed, to what scanners
 * are set to: another square may have been taken for the test square, or its side is another.
 */
export const oddSetting = ({ dpi }: ScanScale, nominal: NominalScale, where: string): Finding[] => {
  const mean = (dpi.x + dpi.y) / 2;
  const likely =
    nominal.from === 'typed' ? [nominal.dpi] : nominal.from === 'file' ? [...SETTINGS, nominal.dpi] : SETTINGS;
  if (likely.some((setting) => Math.abs(mean / setting - 1) <= OFF)) return [];
  const not = nominal.from === 'typed' ? `not at the ${nominal.dpi} that was typed` : 'which no scanner is set to';
  return [
    {
      weight: 'warning',
      kind: 'scale-odd',
      where,
      message: `by this square it was scanned at ${Math.round(mean)} dpi, ${not}`,
      cure: 'measure the side of the square on the paper, and see by --preview whether it is the one that is hatched',
    },
  ];
};
