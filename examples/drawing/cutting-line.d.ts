import type { NetPanel } from './net-panels.js';

export type PlainCubic = readonly (readonly [number, number])[];

/** Top, back seam, bottom, front seam at a distance outside the net line, as lists of cubics. */
export declare function panelEdges(panel: NetPanel, distance: number): readonly (readonly PlainCubic[])[];
