import { StaywrightError } from '../../errors.ts';
import type { Edge, Panel } from '../../pattern/panel.ts';
import { suggestName } from '../../pattern/suggest.ts';
import type { AllowanceWidths } from './allowance-widths.ts';

/** The width asked for along an edge: by its own name first. */
export const widthOf = (edge: Edge, widths: AllowanceWidths): number | undefined =>
  Object.hasOwn(widths.byEdge, edge.name) ? widths.byEdge[edge.name] : widths.all;

/** Refuses widths below nothing, for edges that no panel has, or that leave an edge without one. */
export const checkWidths = (panels: readonly Panel[], widths: AllowanceWidths): void => {
  const names = [...new Set(panels.flatMap((panel) => panel.edges.map((edge) => edge.name)))];
  for (const [name, width] of Object.entries(widths.byEdge)) {
    const where = `--allowance ${name}`;
    if (!names.includes(name)) {
      throw new StaywrightError('usage', `no edge is called '${name}'`, { where, hint: suggestName(name, names) });
    }
    if (!(width >= 0)) refuseNegative(where);
  }
  if (widths.all !== undefined && !(widths.all >= 0)) refuseNegative('--allowance');
  const without = names.filter((name) => widths.all === undefined && !Object.hasOwn(widths.byEdge, name));
  if (without.length === 0) return;
  const message = `no width for ${without.join(', ')}`;
  const hint = 'give one width for all, and others by name: --allowance 15mm --allowance top=6mm';
  throw new StaywrightError('usage', message, { where: '--allowance', hint });
};

const refuseNegative = (where: string): never => {
  throw new StaywrightError('usage', 'an allowance cannot be less than nothing', { where });
};
