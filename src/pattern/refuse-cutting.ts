import { StaywrightError } from '../errors.ts';
import type { Pattern } from './pattern.ts';

/** Refuses a pattern with panels whose edges are still cutting lines. @throws input, naming the command that mends it. */
export const refuseCutting = (pattern: Pattern): void => {
  const carrying = pattern.panels.filter((panel) => panel.line === 'cutting').map((panel) => panel.name);
  if (carrying.length === 0) return;
  throw new StaywrightError('input', 'these panels still carry seam allowance', {
    where: `panel ${carrying.join(', ')}`,
    hint: 'take it off first: staywright strip-allowance --allowance 15mm (or the width of this pattern)',
  });
};
