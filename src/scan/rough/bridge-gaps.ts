/** Gaps up to this, in millimetres, are closed: what wear takes out of a line (0.6 mm) and what blur makes of it; dashes lie 1 mm apart. */
const GAP = 0.75;

/** What is filled in is no gap but the space between two lines if it is longer than this, in millimetres. */
const LONGEST = 1.6;

/** Ways to look across a gap: every 11 degrees; the other half of the circle is seen from the far end. */
const WAYS = 16;

/** Pixels crossed on the way from (x, y) along (dx, dy) to the next ink within `reach`; none if it begins in ink or meets none. */
const crossed = (
  ink: Uint8Array,
  width: number,
  height: number,
  x: number,
  y: number,
  dx: number,
  dy: number,
  reach: number,
): number[] => {
  const pixels: number[] = [];
  for (let t = 1; ; t += 1) {
    const [u, v] = [Math.round(x + t * dx), Math.round(y + t * dy)];
    if (u < 0 || v < 0 || u >= width || v >= height) return [];
    const at = v * width + u;
    if (ink[at] !== 0) return pixels;
    if (t > reach) return [];
    pixels.push(at);
  }
};

/**
 * The ink with short gaps filled: pixels that lie between two inks that face each other across no more than a gap, where they make a
 * short piece. What lies between two lines that run side by side is long, and stays open.
 */
export const bridgeGaps = (ink: Uint8Array, width: number, height: number, pxPerMm: number): Uint8Array => {
  const bridged = ink.slice();
  const filled: number[] = [];
  const [GAP_PIXEL, KEPT] = [2, 1];
  const ways = Array.from(
    { length: WAYS },
    (_, k) => [Math.cos((Math.PI * k) / WAYS), Math.sin((Math.PI * k) / WAYS)] as const,
  );
  const reach = GAP * pxPerMm;
  for (let y = 1; y < height - 1; y += 1) {
    for (let x = 1; x < width - 1; x += 1) {
      const at = y * width + x;
      if (ink[at] === 0) continue;
      const near = ink[at + 1]! + ink[at - 1]! + ink[at + width - 1]! + ink[at + width]! + ink[at + width + 1]!;
      if (near === 5) continue;
      for (const [dx, dy] of ways) {
        for (const pixel of crossed(ink, width, height, x, y, dx, dy, reach)) {
          if (bridged[pixel] !== 0) continue;
          bridged[pixel] = GAP_PIXEL;
          filled.push(pixel);
        }
      }
    }
  }
  const longest = LONGEST * pxPerMm;
  for (const first of filled) {
    if (bridged[first] !== GAP_PIXEL) continue;
    const piece = [first];
    bridged[first] = KEPT;
    let [left, right, top, bottom] = [width, 0, height, 0];
    for (let k = 0; k < piece.length; k += 1) {
      const [x, y] = [piece[k]! % width, Math.floor(piece[k]! / width)];
      [left, right, top, bottom] = [Math.min(left, x), Math.max(right, x), Math.min(top, y), Math.max(bottom, y)];
      for (const to of [piece[k]! - 1, piece[k]! + 1, piece[k]! - width, piece[k]! + width]) {
        if (bridged[to] !== GAP_PIXEL) continue;
        bridged[to] = KEPT;
        piece.push(to);
      }
    }
    if (Math.max(right - left, bottom - top) + 1 > longest) for (const at of piece) bridged[at] = 0;
  }
  return bridged;
};
