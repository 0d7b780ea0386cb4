/** Sets to `value` all within `reach` pixels of where the mask is `value` already; beyond the picture is nothing. */
export const growMask = (mask: Uint8Array, width: number, height: number, value: 0 | 1, reach: number): void => {
  const rim: number[] = [];
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 1) {
      if (mask[at] !== value) continue;
      const inside =
        (x === 0 || mask[at - 1] === value) &&
        (x === width - 1 || mask[at + 1] === value) &&
        (y === 0 || mask[at - width] === value) &&
        (y === height - 1 || mask[at + width] === value);
      if (!inside) rim.push(at);
    }
  }
  const most = Math.floor(reach);
  const halves = Array.from({ length: 2 * most + 1 }, (_, k) => Math.floor(Math.sqrt(reach * reach - (k - most) ** 2)));
  for (const at of rim) {
    const x = at % width;
    const y = (at - x) / width;
    for (let v = Math.max(0, y - most); v <= Math.min(height - 1, y + most); v += 1) {
      const half = halves[v - y + most]!;
      const end = v * width + Math.min(width - 1, x + half);
      for (let to = v * width + Math.max(0, x - half); to <= end; to += 1) mask[to] = value;
    }
  }
};
