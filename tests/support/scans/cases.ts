/** The scans that the goals speak of, and the sheets they are made of. */
import { BASQUE, FRONT, SIDE, SIDE_FRONT, GUSSET } from './scan-panels.ts';
import { randomFrom } from './random.ts';
import type { ScanSpec } from './scan-spec.ts';
import type { Worn } from './wear.ts';

type Laid = Pick<ScanSpec, 'sheet' | 'panels' | 'square'>;

/** 80 x 122 mm: one panel and a square of 20 mm; quick. */
export const smallSheet = (): Laid => ({
  sheet: { width: 80, height: 122 },
  panels: [{ panel: SIDE_FRONT, at: { x: 37, y: 67 }, turn: 3 }],
  square: { side: 20, at: { x: 9, y: 88 } },
});

/** 82 x 102 mm: two panels and a square of 20 mm. */
export const closeSheet = (): Laid => ({
  sheet: { width: 82, height: 102 },
  panels: [
    { panel: SIDE, at: { x: 40, y: 46 }, turn: -2 },
    { panel: GUSSET, at: { x: 7, y: 6 } },
  ],
  square: { side: 20, at: { x: 8, y: 74 } },
});

/** 164 x 206 mm: four panels and a square of 50 mm (or 2 inches). */
export const fullSheet = (side = 50): Laid => ({
  sheet: { width: 164, height: 206 },
  panels: [
    { panel: FRONT, at: { x: 10, y: 77 } },
    { panel: SIDE_FRONT, at: { x: 66, y: 74 }, turn: 2, second: -3 },
    { panel: SIDE, at: { x: 115, y: 54 }, turn: -3 },
    { panel: BASQUE, at: { x: 69, y: 154 }, turn: 4 },
  ],
  square: { side, at: { x: 10, y: 142 } },
});

/** A3 with panels of full size: 17 million pixels at 300 dpi, 70 million at 600. */
export const wideSheet = (): Laid => ({
  sheet: { width: 297, height: 420 },
  panels: [
    { panel: FRONT, at: { x: 15, y: 155 }, enlarged: 2.1 },
    { panel: SIDE_FRONT, at: { x: 130, y: 150 }, enlarged: 2 },
    { panel: SIDE, at: { x: 216, y: 110 }, enlarged: 1.9 },
    { panel: BASQUE, at: { x: 80, y: 330 }, enlarged: 2, turn: 2 },
    { panel: GUSSET, at: { x: 240, y: 210 }, enlarged: 1.6 },
  ],
  square: { side: 50, at: { x: 15, y: 300 } },
});

/** Millimetres, for the worst panel of the case. */
export interface Goal {
  readonly rms: number;
  readonly max: number;
  readonly corner: number;
}

export interface ScanCase {
  readonly name: string;
  readonly spec: ScanSpec;
  readonly goal: Goal;
}

const WORN_LINES: Worn = { gaps: 4, widest: 0.6, faded: 2, creases: 2, pencil: 3 };
const WORN_PIECES: Worn = { creases: 3, pencil: 3 };

const named = (name: string, spec: ScanSpec, rms: number, max: number, corner: number): ScanCase => ({
  name,
  spec,
  goal: { rms, max, corner },
});

/** Every case of the goals; another seed gives other turns, errors, wear and noise. */
export const scanCases = (seed = 1): ScanCase[] => {
  const random = randomFrom(seed * 977);
  const scanner = (): Partial<ScanSpec> => ({
    turn: random.between(-2, 2),
    shear: random.between(-0.004, 0.004),
    scaleX: 1 + random.between(0.01, 0.02) * (random.next() < 0.5 ? -1 : 1),
    scaleY: 1 + random.between(0.005, 0.02) * (random.next() < 0.5 ? -1 : 1),
    blur: random.between(0.6, 0.85),
    lamp: { slope: 0.2, toward: random.between(0, 360), vignette: 0.1 },
    noise: 3,
    dust: 12,
    jpeg: 75,
    seed: seed * 100 + random.below(90),
  });
  const line = { kind: 'line' as const, lineWidth: 0.5 };
  const cutout = { kind: 'cutout' as const };
  const flat = (): Partial<ScanSpec> => {
    const { jpeg: _, ...rest } = scanner();
    return { ...rest, lamp: { slope: 0.08, vignette: 0.04 }, threshold: 140 };
  };
  const worn = { worn: WORN_LINES };
  return [
    named('line 300', { ...line, dpi: 300, ...fullSheet(), ...scanner() }, 0.008, 0.03, 0.03),
    named('line 300 worn', { ...line, dpi: 300, ...fullSheet(), ...scanner(), ...worn }, 0.008, 0.05, 0.03),
    named('line 600', { ...line, dpi: 600, ...closeSheet(), ...scanner(), blur: 1 }, 0.006, 0.02, 0.025),
    named('line 150', { ...line, dpi: 150, ...fullSheet(), ...scanner() }, 0.012, 0.04, 0.04),
    named('line 1-bit 300', { ...line, dpi: 300, ...fullSheet(), ...flat() }, 0.01, 0.045, 0.06),
    named('cutout 300', { ...cutout, dpi: 300, ...fullSheet(), ...scanner() }, 0.012, 0.035, 0.035),
    named(
      'cutout 300 worn',
      { ...cutout, dpi: 300, ...fullSheet(), ...scanner(), worn: WORN_PIECES },
      0.018,
      0.05,
      0.035,
    ),
    named('cutout 600', { ...cutout, dpi: 600, ...closeSheet(), ...scanner(), blur: 1 }, 0.008, 0.025, 0.025),
    named('cutout 150', { ...cutout, dpi: 150, ...fullSheet(), ...scanner() }, 0.025, 0.06, 0.06),
  ];
};

/** Scans with what the others do not have: a lid and a frame round the sheet, dark pieces, thick and thin lines, inches, a second size outside. */
export const oddCases = (seed = 1): ScanCase[] => {
  const random = randomFrom(seed * 1409);
  const scanner = (): Partial<ScanSpec> => ({
    turn: random.between(-1.5, 1.5),
    shear: random.between(-0.003, 0.003),
    scaleX: 1 + random.between(-0.015, 0.015),
    scaleY: 1 + random.between(-0.015, 0.015),
    lamp: { slope: 0.25, toward: random.between(0, 360), vignette: 0.1 },
    noise: 3,
    dust: 20,
    jpeg: 75,
    seed: seed * 100 + random.below(90),
  });
  const full = fullSheet();
  const outside: Laid = {
    ...smallSheet(),
    panels: [{ panel: { ...SIDE, filled: true }, at: { x: 32, y: 46 }, turn: 2, second: 4 }],
    square: { side: 20, at: { x: 9, y: 96 } },
  };
  const inches: Laid = { ...fullSheet(50.8), panels: full.panels.slice(0, 3) };
  const line = { kind: 'line' as const, dpi: 300 };
  const dark = { kind: 'cutout' as const, dpi: 300, paper: 96, ink: 24, ground: 236 };
  return [
    named(
      'framed, on a dark lid',
      { ...line, ...full, ...scanner(), frame: 4, lid: { grey: 60, margin: 7 } },
      0.008,
      0.03,
      0.03,
    ),
    named('second size outside', { ...line, ...outside, ...scanner(), lineWidth: 0.7 }, 0.008, 0.03, 0.03),
    named('thin lines, 2 inches', { ...line, ...inches, ...scanner(), lineWidth: 0.35 }, 0.008, 0.03, 0.03),
    named('dark pieces on white', { ...dark, ...smallSheet(), ...scanner() }, 0.012, 0.035, 0.035),
  ];
};
