/**
 * The net panels of an invented boned bodice, from widths at five levels: every seam is a smooth curve through them, and
 * the two edges of a seam are made equally long. All in mm; x counts from the grainline towards the back, heights from the
 * waist upwards.
 */
export const INCH = 25.4;
export const ALLOWANCE = (5 / 8) * INCH;

/** Heights above the waist, in mm. The first and the last only steer the curves beyond the edges. */
export const LEVELS = {
  low: -185,
  'high-hip': -4 * INCH,
  waist: 0,
  underbust: 2.5 * INCH,
  bust: 5.375 * INCH,
  high: 215,
};
const HEIGHTS = Object.values(LEVELS);

/** Net widths of size 2 at each of those heights, and how much of each width lies in front of the grainline. */
const PANELS = [
  { name: 'front', widths: [50, 53, 47, 59, 76, 62], ahead: [0, 0, 0, 0, 0, 0] },
  { name: 'mid-front', widths: [78, 64, 49, 61, 85.5, 66], ahead: [0.48, 0.49, 0.5, 0.5, 0.52, 0.44] },
  { name: 'side-front', widths: [86, 65, 48, 58, 69.5, 63], ahead: [0.48, 0.49, 0.5, 0.5, 0.49, 0.45] },
  { name: 'side-back', widths: [87, 66, 49, 56.5, 64, 60], ahead: [0.5, 0.5, 0.5, 0.5, 0.5, 0.53] },
  { name: 'mid-back', widths: [84, 64, 50, 56.5, 65, 64], ahead: [0.52, 0.51, 0.5, 0.5, 0.5, 0.5] },
  { name: 'back', widths: [68, 59, 56, 59, 67, 72], ahead: [0.5, 0.47, 0.44, 0.46, 0.5, 0.52] },
];

/** From centre front to centre back: the heights of the top and the bottom edge at each seam, in size 2. */
const SEAMS = [
  { name: 'cf', top: 172, bottom: -172 },
  { name: 'princess', top: 197, bottom: -160 },
  { name: 'underarm-front', top: 187, bottom: -136 },
  { name: 'side', top: 167, bottom: -126 },
  { name: 'underarm-back', top: 164, bottom: -130 },
  { name: 'blade', top: 171, bottom: -139 },
  { name: 'cb', top: 172, bottom: -144 },
];

/** Two inches round the body from size to size, and 3 mm in the height of each end. */
export const SIZES = [
  { number: 1, girth: -2 * INCH, height: -3, bust: '32 to 33', waist: '23 to 24', line: 'st1' },
  { number: 2, girth: 0, height: 0, bust: '34 to 35', waist: '25 to 26', line: 'st2' },
  { number: 3, girth: 2 * INCH, height: 3, bust: '36 to 37', waist: '27 to 28', line: 'st3' },
];

/** A seam: x as a natural cubic spline of the height h, with its slope and its bend. */
function naturalSpline(hs, xs) {
  const n = hs.length;
  const upper = Array.from({ length: n }, () => 0);
  const right = Array.from({ length: n }, () => 0);
  const curve = Array.from({ length: n }, () => 0);
  for (let i = 1; i < n - 1; i++) {
    const a = hs[i] - hs[i - 1];
    const b = hs[i + 1] - hs[i];
    const pull = 6 * ((xs[i + 1] - xs[i]) / b - (xs[i] - xs[i - 1]) / a);
    const pivot = 2 * (a + b) - a * upper[i - 1];
    upper[i] = b / pivot;
    right[i] = (pull - a * right[i - 1]) / pivot;
  }
  for (let i = n - 2; i > 0; i--) curve[i] = right[i] - upper[i] * curve[i + 1];
  const at = (h) => {
    let i = 0;
    while (i < n - 2 && h > hs[i + 1]) i++;
    const d = hs[i + 1] - hs[i];
    const u = (h - hs[i]) / d;
    const v = 1 - u;
    const x = v * xs[i] + u * xs[i + 1] + ((v ** 3 - v) * curve[i] + (u ** 3 - u) * curve[i + 1]) * (d * d * (1 / 6));
    const slope = (xs[i + 1] - xs[i]) / d + ((1 - 3 * v * v) * curve[i] + (3 * u * u - 1) * curve[i + 1]) * (d / 6);
    const bend = v * curve[i] + u * curve[i + 1];
    return { x, slope, bend };
  };
  return at;
}

/** Length of a seam between two heights: Simpson on half-millimetre steps. */
export function seamLength(seam, from, to) {
  const steps = 2 * Math.max(1, Math.ceil(Math.abs(to - from)));
  const dh = (to - from) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const weight = i === 0 || i === steps ? 1 : i % 2 ? 4 : 2;
    sum += weight * Math.hypot(1, seam(from + i * dh).slope);
  }
  return Math.abs((sum * dh) / 3);
}

/** The height that lies a length along the seam from the waist; negative lengths go down. */
export function heightAt(seam, length) {
  let h = length;
  for (let i = 0; i < 40; i++) {
    const error = Math.sign(h) * seamLength(seam, 0, h) - length;
    h -= error / Math.hypot(1, seam(h).slope);
    if (Math.abs(error) < 1e-10) break;
  }
  return h;
}

const walked = (seam, h) => Math.sign(h) * seamLength(seam, 0, h);

/** The net panels of one size: two seams each with the heights of their ends; the back seam of one panel is as long as the front seam of the next. */
export function netPanels(size) {
  const grow = size.girth / (2 * PANELS.length);
  const panels = PANELS.map((panel) => {
    const widths = panel.widths.map((width) => width + grow);
    const front = naturalSpline(
      HEIGHTS,
      widths.map((width, i) => -width * panel.ahead[i]),
    );
    const back = naturalSpline(
      HEIGHTS,
      widths.map((width, i) => width * (1 - panel.ahead[i])),
    );
    return { name: panel.name, front, back };
  });
  const ends = SEAMS.map((seam) => ({ top: seam.top + size.height, bottom: seam.bottom - size.height }));
  return panels.map((panel, i) => {
    const mate = panels[i - 1]?.back;
    const match = (h) => (mate ? heightAt(panel.front, walked(mate, h)) : h);
    return {
      name: panel.name,
      front: panel.front,
      back: panel.back,
      frontSeam: SEAMS[i].name,
      backSeam: SEAMS[i + 1].name,
      frontEnds: { top: match(ends[i].top), bottom: match(ends[i].bottom) },
      backEnds: ends[i + 1],
      tilt: {
        top: [tiltAt(ends, i, 'top'), tiltAt(ends, i + 1, 'top')],
        bottom: [tiltAt(ends, i, 'bottom'), tiltAt(ends, i + 1, 'bottom')],
      },
    };
  });
}

/** How far the top (or bottom) edge leans from square to the seam where it crosses it, the same on both panels, so that it runs on smoothly. */
function tiltAt(ends, seam, end) {
  if (seam === 0 || seam === ends.length - 1) return 0;
  return Math.atan((ends[seam + 1][end] - ends[seam - 1][end]) / 130);
}
