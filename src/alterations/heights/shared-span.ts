import { StaywrightError } from '../../errors.ts';
import { SAME_POINT } from '../../geometry/tolerance.ts';
import { seamSpan } from '../../pattern/chord.ts';
import { levelCalled } from '../../pattern/girth-at.ts';
import type { LevelRef } from '../../pattern/level-ref.ts';
import { levelY } from '../../pattern/level-y.ts';
import { frontEdge, waistOf } from '../../pattern/look-up.ts';
import type { Panel } from '../../pattern/panel.ts';

/** The height of the waist. @throws input for a panel that was never labelled, usage for one without a waist. */
export const waistHeight = (panel: Panel): number => {
  if (panel.gusset === undefined) frontEdge(panel);
  return waistOf(panel) ?? levelY(panel, levelCalled('waist'));
};

/**
 * The heights between which the seams of all these panels run, measured from the waist, y down: the lowest of their tops and the highest
 * of their bottoms, gussets aside. Panels that are sewn together are altered between the same heights, so that their seams still match.
 */
export const sharedSpan = (panels: readonly Panel[]): { readonly top: number; readonly bottom: number } => {
  const spans = panels
    .filter(({ gusset }) => gusset === undefined)
    .map((panel) => {
      const waist = waistHeight(panel);
      const { top, bottom } = seamSpan(panel)!;
      return { top: top - waist, bottom: bottom - waist };
    });
  return {
    top: Math.max(...spans.map(({ top }) => top)),
    bottom: Math.min(...spans.map(({ bottom }) => bottom)),
  };
};

/** @throws usage, naming the option, for a level that lies off every panel. */
export const refuseOffPanels = (panels: readonly Panel[], ref: LevelRef, where: string): void => {
  const span = sharedSpan(panels);
  const reached = panels.some((panel) => {
    const own = panel.gusset === undefined ? seamSpan(panel) : undefined;
    const y = sharedLevelY(panel, ref, span);
    return own !== undefined && y >= own.top - SAME_POINT && y <= own.bottom + SAME_POINT;
  });
  if (reached) return;
  throw new StaywrightError('usage', `no panel reaches ${ref.text}`, {
    where,
    hint: 'choose a level that lies on the panels, or top or bottom',
  });
};

/** As `levelY`, but with `top` and `bottom` at the same distance from the waist on all panels: where the shared span ends. */
export const sharedLevelY = (
  panel: Panel,
  ref: LevelRef,
  span: { readonly top: number; readonly bottom: number },
): number =>
  ref.name === 'top' || ref.name === 'bottom' ? waistHeight(panel) + span[ref.name] - ref.offset : levelY(panel, ref);
