import type { Point } from '../../../src/geometry/point.ts';
import type { PictureKind } from '../../../src/scan/rough-outline.ts';
import type { ScanPanel } from './scan-panels.ts';
import type { Worn } from './wear.ts';

/** Where a panel lies on the sheet: its own origin goes to `at`, after it is enlarged and turned clockwise about it (degrees). */
export interface PlacedPanel {
  readonly panel: ScanPanel;
  readonly at: Point;
  readonly turn?: number;
  readonly enlarged?: number;
  /** A second size beside the outline at this distance (outside if positive), dashed. */
  readonly second?: number;
}

/** A square of known side, its upper left corner at `at` before it is turned about that corner (degrees). */
export interface PlacedSquare {
  readonly side: number;
  readonly at: Point;
  readonly turn?: number;
}

/** What is on the paper and how it is scanned. Lengths in millimetres, angles in degrees, greys from 0 to 255 as in the file. */
export interface ScanSpec {
  readonly kind: PictureKind;
  readonly dpi: number;
  readonly sheet: { readonly width: number; readonly height: number };
  readonly panels: readonly PlacedPanel[];
  readonly square?: PlacedSquare;
  /** Of the outlines, 0.5; other ink is drawn thinner. */
  readonly lineWidth?: number;
  /** The part of the sheet that the scanner sees, the whole of it if left out. */
  readonly window?: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** Clockwise, about the middle of what is seen. */
  readonly turn?: number;
  /** How far a place moves right for each unit that it lies lower. */
  readonly shear?: number;
  /** 1.02: the picture is 2 % too wide for its dpi. */
  readonly scaleX?: number;
  readonly scaleY?: number;
  /** The spread of the blur in pixels, 0.7. */
  readonly blur?: number;
  /** Share of the light lost from one side to the other (in direction `toward`), and from the middle to the corners. */
  readonly lamp?: { readonly slope: number; readonly toward?: number; readonly vignette: number };
  /** Spread of the noise in grey values, 0. */
  readonly noise?: number;
  /** Specks on 100 square centimetres. */
  readonly dust?: number;
  readonly paper?: number;
  readonly ink?: number;
  /** What cut-out pieces lie on. */
  readonly ground?: number;
  /** What shows round the sheet's edge, and how many millimetres of it; else paper fills the picture. */
  readonly lid?: { readonly grey: number; readonly margin: number };
  /** A printed frame this far inside the sheet's edge. */
  readonly frame?: number;
  readonly worn?: Worn;
  readonly jpeg?: number;
  /** Below this grey a pixel becomes black, else white. */
  readonly threshold?: number;
  readonly seed?: number;
  readonly scanSeed?: number;
}
