import type { Panel } from './panel.ts';

/** What reports are shown in. */
export type Units = 'mm' | 'in';

/**
 * A whole pattern. `pairs`: a half pattern, every panel is cut twice, mirrored; `single`: left and right are drawn separately.
 */
export interface Pattern {
  readonly name: string;
  readonly pieces: 'pairs' | 'single';
  readonly units: Units;
  /** From centre front to centre back. */
  readonly panels: readonly Panel[];
}
