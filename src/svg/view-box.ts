import { StaywrightError } from '../errors.ts';
import { compose, scaling, translation, type Matrix } from '../geometry/matrix.ts';

export interface ViewBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Reads a `viewBox`; undefined where there is none. Throws an `input` error unless it is four finite numbers, the last two above 0. */
export const readViewBox = (text: string | undefined, where: string): ViewBox | undefined => {
  if (text === undefined || text.trim() === '' || text.trim() === 'none') return undefined;
  const [x, y, width, height, ...rest] = text
    .trim()
    .split(/\s*,\s*|\s+/)
    .map(Number);
  const bad = [x, y, width, height].some((v) => v === undefined || !Number.isFinite(v)) || rest.length > 0;
  if (bad || width! <= 0 || height! <= 0) {
    throw new StaywrightError('input', `viewBox '${text.slice(0, 60)}' must be x, y, width and height above 0`, {
      where,
    });
  }
  return { x: x!, y: y!, width: width!, height: height! };
};

const ALIGN = /^(?:defer\s+)?(?:none|x(Min|Mid|Max)Y(Min|Mid|Max))(?:\s+(meet|slice))?$/;
const SHARE: Readonly<Record<string, number>> = { Min: 0, Mid: 0.5, Max: 1 };

/**
 * The map from a viewBox to a viewport of the given size at the origin, as `preserveAspectRatio` says; without it, the drawing
 * is fitted in and centred. Throws an `input` error for a value that SVG does not know.
 */
export const viewBoxMatrix = (
  box: ViewBox,
  viewport: { readonly width: number; readonly height: number },
  aspect: string | undefined,
  where: string,
): Matrix => {
  const text = aspect?.trim() || 'xMidYMid';
  const match = ALIGN.exec(text);
  if (!match) throw new StaywrightError('input', `unknown preserveAspectRatio '${text.slice(0, 40)}'`, { where });
  const [, alignX, alignY, fit] = match;
  let [scaleX, scaleY] = [viewport.width / box.width, viewport.height / box.height];
  if (alignX !== undefined) {
    const both = fit === 'slice' ? Math.max(scaleX, scaleY) : Math.min(scaleX, scaleY);
    [scaleX, scaleY] = [both, both];
  }
  const left = (viewport.width - box.width * scaleX) * (SHARE[alignX ?? 'Min'] ?? 0);
  const top = (viewport.height - box.height * scaleY) * (SHARE[alignY ?? 'Min'] ?? 0);
  return compose(translation(left, top), compose(scaling(scaleX, scaleY), translation(-box.x, -box.y)));
};
