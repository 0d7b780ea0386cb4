import type { Finding } from '../../pattern/finding.ts';
import type { ScanScale } from '../traced.ts';
import type { NominalScale } from './nominal-scale.ts';

/** What scanners are set to; and, as a share, how far their truth may lie from it. */
const SETTINGS = [72, 75, 96, 100, 120, 144, 150, 200, 240, 250, 300, 350, 360, 400, 500, 600, 720, 800, 1200];
const OFF = 0.025;

/**
 * A scale by which the scanner would have been set to what none is set to: another square may have been taken for the test square, or its
 * side is another. Nothing where the setting was typed, or the file tells it so.
 */
export const oddSetting = ({ dpi }: ScanScale, nominal: NominalScale, where: string): Finding[] => {
  if (nominal.from === 'typed') return [];
  const mean = (dpi.x + dpi.y) / 2;
  const known = nominal.from === 'file' ? [nominal.dpi] : [];
  if ([...SETTINGS, ...known].some((setting) => Math.abs(mean / setting - 1) <= OFF)) return [];
  return [
    {
      weight: 'warning',
      kind: 'scale-odd',
      where,
      message: `by this square it was scanned at ${Math.round(mean)} dpi, which no scanner is set to`,
      cure: 'measure the side of the square on the paper; look at the preview, where it is hatched; and add --dpi',
    },
  ];
};
