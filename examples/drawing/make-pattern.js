/**
 * The source of `drawn-pattern.svg`: an invented boned bodice in three nested sizes, with its cutting lines 5/8 in outside
 * the net panels, written the way a general drawing program exports it: 96 px to the inch, nested groups with transforms,
 * relative path commands, classes, artwork round about.
 *
 * Run: node examples/drawing/make-pattern.js > examples/drawn-pattern.svg
 */
import { pathToFileURL } from 'node:url';
import { cuttingX, mitre, panelEdges, seamParallel } from './cutting-line.js';
import { ALLOWANCE, INCH, LEVELS, SIZES, heightAt, netPanels } from './net-panels.js';

const PX = 96 / INCH;
const DRAWN_LEVELS = ['bust', 'underbust', 'waist', 'high-hip'];

/** Notches by length along the seam from the waist: above it one, below it one; the side seam carries a pair below. */
const NOTCHES = {
  princess: [110, -60],
  'underarm-front': [95, -60],
  side: [85, -55, -63],
  'underarm-back': [95, -60],
  blade: [110, -60],
};

const px = (value) => Math.round(value * PX * 1000) / 1000;
const paper = ([x, h]) => [px(x), px(-h)];
const join = (x, y) => `${x},${y}`.replace(',-', '-');
const step = (value) => Math.round(value * 1000) / 1000;

const isStraight = ([a, ...rest]) => rest.every((point) => Math.abs(point[0] - a[0]) < 1e-9);

/** Closed path data in relative commands, each step counted from the rounded point before it so that nothing adds up. */
function outlineData(panel) {
  const edges = panelEdges(panel, ALLOWANCE);
  const corners = edges.map((edge, i) => paper(mitre(edge, edges[(i + 1) % 4])));
  let pen = corners[3];
  let data = `M${join(...pen)}`;
  const to = (point) => join(step(point[0] - pen[0]), step(point[1] - pen[1]));
  const lineTo = (point) => {
    data += `l${to(point)}`;
    pen = point;
  };
  edges.forEach((edge, i) => {
    if (!edge.every(isStraight)) {
      lineTo(paper(edge[0][0]));
      for (const cubic of edge) {
        const [, a, b, end] = cubic.map(paper);
        data += `c${to(a)} ${to(b)} ${to(end)}`;
        pen = end;
      }
    }
    if (i < 3) lineTo(corners[i]);
  });
  return `${data}z`;
}

function notchData(seam, h, out) {
  const at = (distance) => paper(seamParallel(seam, h, h + 1, out, distance)(0).point);
  const outer = at(ALLOWANCE);
  const inner = at(ALLOWANCE - 6);
  return `m${join(...outer)} ${join(step(inner[0] - outer[0]), step(inner[1] - outer[1]))}`;
}

function drawPanel(panel, size, at) {
  const pad = '    ';
  const level = (name) => {
    const h = LEVELS[name];
    const left = px(cuttingX(panel.front, h, -1, ALLOWANCE));
    const right = px(cuttingX(panel.back, h, 1, ALLOWANCE));
    return `${pad}  <path class="${name} st5" d="M${join(left, px(-h))}h${step(right - left)}"/>`;
  };
  const notches = (seam, curve, out) =>
    (NOTCHES[seam] ?? []).map(
      (length) => `${pad}  <path class="notch st4" d="${notchData(curve, heightAt(curve, length), out)}"/>`,
    );
  const grain = panel.name === 'front' ? px(20) : 0;
  return [
    `${pad}<g transform="${at}">`,
    `${pad}  <path class="${size.line}" d="${outlineData(panel)}"/>`,
    ...DRAWN_LEVELS.map(level),
    ...notches(panel.frontSeam, panel.front, -1),
    ...notches(panel.backSeam, panel.back, 1),
    `${pad}  <use class="grain" href="#arrow" x="${grain}" y="${px(15)}"/>`,
    `${pad}</g>`,
  ];
}

/** Where the panels lie on the paper, in mm; the back was drawn at a slant to save paper. */
const PLACES = [40, 215, 370, 520, 668, 818];

function drawSize(size) {
  const panels = netPanels(size).flatMap((panel, i) => {
    const turn = panel.name === 'back' ? ' rotate(-4)' : '';
    return drawPanel(panel, size, `translate(${px(PLACES[i])} ${px(240)})${turn}`);
  });
  return [`  <g id="size-${size.number}" transform="translate(0 ${px(65)})">`, ...panels, '  </g>'];
}

const STYLE = `    .st0{fill:none;stroke:#000;stroke-width:2}
    .st1{fill:none;stroke:#000;stroke-width:1.5;stroke-dasharray:4 4}
    .st2{fill:none;stroke:#000;stroke-width:1.5;stroke-dasharray:16 5}
    .st3{fill:none;stroke:#000;stroke-width:2}
    .st4{fill:none;stroke:#000;stroke-width:2}
    .st5{fill:none;stroke:#666;stroke-width:1}
    .st6{font-family:sans-serif;font-size:15px;fill:#000}
    .st7{font-family:serif;font-size:64px;fill:#000}
    .st8{font-family:sans-serif;font-size:24px;fill:#000}
    .st9{fill:none;stroke:#000;stroke-width:3;stroke-linecap:round}`;

const HEAD = `<?xml version="1.0" encoding="UTF-8"?>
<!-- Invented for this example. No garment, theatre or person stands behind it. -->
<svg xmlns="http://www.w3.org/2000/svg" width="${px(910)}px" height="${px(520)}px" viewBox="0 0 ${px(910)} ${px(520)}">
  <title>Boned bodice, three sizes</title>
  <defs>
    <style>
${STYLE}
    </style>
    <path id="arrow" class="st0" d="M0,0v340" />
  </defs>
  <rect width="100%" height="100%" fill="#fff"/>`;

/** The name of each panel, once for all its sizes, below the place where it lies. */
function panelNames() {
  const names = netPanels(SIZES[1]).map(
    ({ name }, i) => `    <text class="st8" x="${px(PLACES[i])}" y="${px(510)}">${name}</text>`,
  );
  return ['  <g id="names">', ...names, '  </g>'];
}

/** Title, notes, size table, an ornament of two curls, and a test square of two inches: all of it outside the sizes. */
function furniture() {
  const words = (x, y, text, kind = 'st8') => `    <text class="${kind}" x="${px(x)}" y="${px(y)}">${text}</text>`;
  const table = SIZES.flatMap((size, i) => {
    const y = 24 + 9 * i;
    return [
      `    <path class="${size.line}" d="M${px(430)},${px(y - 2)}h${px(30)}"/>`,
      words(466, y, `size ${size.number}: to fit bust ${size.bust} in, waist ${size.waist} in`),
    ];
  });
  return [
    '  <g id="title">',
    words(30, 28, 'Boned bodice', 'st7'),
    words(
      30,
      40,
      'Invented pattern of a small touring theatre. Half pattern: cut every panel twice, laced at centre back.',
    ),
    words(30, 49, 'All three lines are CUTTING lines: 5/8 in allowance all round. Match the panels at the waist.'),
    ...table,
    '  </g>',
    `  <g id="ornament" transform="translate(${px(150)} ${px(20)})">`,
    '    <path class="st9" d="m120 0c0-40 60-40 60 0s-45 30-45 5 30-20 30 0"/>',
    '    <path class="st9" d="m330 0c0-40-60-40-60 0s45 30 45 5-30-20-30 0"/>',
    '    <path class="st9" d="m190 12q35 26 70 0"/>',
    '  </g>',
    `  <g id="test" transform="translate(${px(830)} ${px(10)})">`,
    `    <rect id="test-square" class="st0" width="192" height="192"/>`,
    `    <text class="st6" x="20" y="100">this side is 2 in</text>`,
    '  </g>',
  ];
}

export function drawPattern() {
  return [HEAD, ...furniture(), ...panelNames(), ...SIZES.flatMap(drawSize), '</svg>', ''].join('\n');
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) process.stdout.write(drawPattern());
