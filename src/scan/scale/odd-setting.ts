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
export const oddSetting = (scale: ScanScale, nominal: NominalScale, where: string): Finding[] => {
  const { dpi } = scale;
  const mean = (dpi.x + dpi.y) / 2;
  const likely =
    nominal.from === 'typed' ? [nominal.dpi] : nominal.from === 'file' ? [...SETTINGS, nominal.dpi] : SETTINGS;
  const setting = likely.find((one) => Math.abs(mean / one - 1) <= OFF);
  if (setting !== undefined) return mixedUp(scale, setting, where);
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

/** 2 in are so many times 50 mm; and how near both scales must come to that for one to be the other. */
const INCHES_TO_MM = 50.8 / 50;
const NEAR = 0.002;

/** Told where 50 mm were typed and 2 in would give just what the scanner was set to, or the other way round. */
const mixedUp = ({ dpi, side }: ScanScale, setting: number, where: string): Finding[] => {
  const isMetric = Math.abs((side ?? 0) - 50) < NEAR;
  if (!isMetric && Math.abs((side ?? 0) - 50.8) > NEAR) return [];
  const wanted = setting * (isMetric ? INCHES_TO_MM : 1 / INCHES_TO_MM);
  if ([dpi.x, dpi.y].some((one) => Math.abs(one / wanted - 1) > NEAR)) return [];
  const [typed, other] = isMetric ? ['50 mm', '2 in'] : ['2 in', '50 mm'];
  return [
    {
      weight: 'warning',
      kind: 'square-mixed-up',
      where,
      message: `with a square of ${typed} it was scanned at ${Math.round(wanted)} dpi, with one of ${other} at ${setting}`,
      cure: `measure the square on the paper: if it is ${other}, say so`,
    },
  ];
};
