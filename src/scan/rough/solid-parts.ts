/** Where a box of `2 * reach + 1` pixels round a pixel is all in the mask; beyond the picture all counts as in it. */
export const solidParts = (mask: Uint8Array, width: number, height: number, reach: number): Uint8Array => {
  const solid = new Uint8Array(mask.length);
  const full = 2 * reach + 1;
  for (let y = 0; y < height; y += 1) {
    let run = full;
    for (let x = 0; x < width + reach; x += 1) {
      run = x >= width || mask[y * width + x]! !== 0 ? run + 1 : 0;
      if (x >= reach && run >= full) solid[y * width + x - reach] = 1;
    }
  }
  const runs = new Int32Array(width).fill(full);
  const wide = solid.slice();
  for (let y = 0; y < height + reach; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const run = y >= height || wide[y * width + x]! !== 0 ? runs[x]! + 1 : 0;
      runs[x] = run;
      if (y >= reach) solid[(y - reach) * width + x] = run >= full ? 1 : 0;
    }
  }
  return solid;
};

/** Takes from the mask all that is joined to the picture's border (side to side), and gives it as a mask of its own. */
export const takeFromBorder = (mask: Uint8Array, width: number, height: number): Uint8Array => {
  const taken = new Uint8Array(mask.length);
  const stack: number[] = [];
  const take = (at: number): void => {
    if (mask[at] === 0) return;
    mask[at] = 0;
    taken[at] = 1;
    stack.push(at);
  };
  for (let x = 0; x < width; x += 1) {
    take(x);
    take((height - 1) * width + x);
  }
  for (let y = 0; y < height; y += 1) {
    take(y * width);
    take(y * width + width - 1);
  }
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    const x = at % width;
    if (x > 0) take(at - 1);
    if (x < width - 1) take(at + 1);
    if (at >= width) take(at - width);
    if (at + width < mask.length) take(at + width);
  }
  return taken;
};
