/** The smallest scan with everything in it, for tests that run the executable: one panel, one notch, a grainline, a square of 20 mm. */
import { GUSSET } from './scan-panels.ts';
import type { ScanSpec } from './scan-spec.ts';

export const tinySheet = (kind: ScanSpec['kind'] = 'line'): ScanSpec => ({
  kind,
  dpi: 150,
  sheet: { width: 61, height: 66 },
  panels: [{ panel: GUSSET, at: { x: 34, y: 4 } }],
  square: { side: 20, at: { x: 6.5, y: 37.5 } },
  turn: 1,
  noise: 2,
  seed: 5,
});
