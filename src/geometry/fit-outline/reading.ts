import type { Point } from '../point.ts';

/** One measured place of an outline. */
export interface Reading {
  readonly at: Point;
  /** From 0 to 1: how far the place is to be believed. At 0 nothing was read, and `at` is only a guess that keeps the order. */
  readonly weight: number;
}
