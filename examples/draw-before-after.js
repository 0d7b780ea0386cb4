/**
 * Draws the README's picture: the panels as bought (dashed) and as altered (solid), and the lacing gap of each.
 *
 * Run: node examples/draw-before-after.js BEFORE.svg AFTER.svg GAP-BEFORE.json GAP-AFTER.json > docs/before-after.svg
 */
import { readFileSync } from 'node:fs';

const [before, after, gapBefore, gapAfter] = process.argv.slice(2).map((file) => readFileSync(file, 'utf8'));

/** The panels of a sheet: name, and the data of each edge and level in the panel's own coordinates. */
function panelsOf(sheet) {
  return sheet
    .split(/(?=<g [^>]*data-kind="panel")/)
    .slice(1)
    .map((text) => {
      const paths = [...text.matchAll(/<path\s([^>]*?)\/?>/g)].map(([, attributes]) => ({
        kind: /data-kind="([^"]*)"/.exec(attributes)?.[1],
        level: /data-level="([^"]*)"/.exec(attributes)?.[1],
        data: /\sd="([^"]*)"/.exec(` ${attributes}`)?.[1].replace(/\s+/g, ' '),
      }));
      return {
        name: /\sid="([^"]*)"/.exec(text)[1],
        edges: paths.filter((path) => path.kind === 'edge').map((path) => path.data),
        levels: paths.filter((path) => path.kind === 'level'),
      };
    });
}

const numbers = (data) => data.match(/-?\d+(\.\d+)?/g).map(Number);
const xs = (data) => numbers(data).filter((_, i) => i % 2 === 0);
const ys = (data) => numbers(data).filter((_, i) => i % 2 === 1);
const tidy = (value) => Math.round(value * 10) / 10;

function row(oldPanels, newPanels) {
  const waists = newPanels.map((panel) => ys(panel.levels.find((level) => level.level === 'waist').data)[0]);
  const lines = [];
  let x = 24;
  newPanels.forEach((panel, i) => {
    const old = oldPanels[i];
    const all = [...panel.edges, ...old.edges].flatMap(xs);
    const left = Math.min(...all);
    lines.push(
      `<g transform="translate(${tidy(x - left)} ${tidy(240 - waists[i])})">`,
      ...panel.levels.map((level) => `<path class="level" d="${level.data}"/>`),
      ...old.edges.filter((data) => !panel.edges.includes(data)).map((data) => `<path class="before" d="${data}"/>`),
      ...panel.edges.map((data) => `<path class="after" d="${data}"/>`),
      `</g>`,
      `<text x="${tidy(x)}" y="452">${panel.name}</text>`,
    );
    x += Math.max(...all) - left + 22;
  });
  return { lines, width: x };
}

/** The two laced edges at centre back with the gap between them, drawn at full size across and down. */
function gapDrawing(report, x, title) {
  const rows = report.levels;
  const points = rows.map((level) => ({
    gap: level.predicted_gap_mm,
    y: 240 - HEIGHTS[level.level],
    name: level.level,
  }));
  const side = (sign) => points.map(({ gap, y }) => `${tidy(x + (sign * gap) / 2)},${tidy(y)}`).join(' ');
  return [
    `<polyline class="after" points="${side(-1)}"/>`,
    `<polyline class="after" points="${side(1)}"/>`,
    ...points.flatMap(({ gap, y }) => [
      `<path class="level" d="M${tidy(x - gap / 2)} ${tidy(y)}h${tidy(gap)}"/>`,
      `<text x="${tidy(x + gap / 2 + 8)}" y="${tidy(y + 4.5)}">${(gap / 25.4).toFixed(2)} in</text>`,
    ]),
    `<text x="${x}" y="452" text-anchor="middle">${title}</text>`,
  ];
}

/** Which line is which. */
function key(x, y) {
  return [
    `<path class="after" d="M${x} ${y}h34"/>`,
    `<text x="${x + 42}" y="${y + 4.5}">as altered</text>`,
    `<path class="before" d="M${x + 130} ${y}h34"/>`,
    `<text x="${x + 172}" y="${y + 4.5}">as bought, where it differs</text>`,
  ];
}

const HEIGHTS = { bust: 136.525, underbust: 63.5, waist: 0, 'high-hip': -101.6 };
const HEIGHT = 492;
const panels = row(panelsOf(before), panelsOf(after));
const width = Math.ceil(panels.width + 290);

process.stdout.write(
  [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${HEIGHT}" width="${width}" height="${HEIGHT}">`,
    '<title>The panels as bought (dashed) and as altered (solid), and the lacing gap before and after</title>',
    '<style>path,polyline{fill:none;stroke:#000}.after{stroke-width:1.6}.before{stroke-width:1.1;stroke-dasharray:6 4;stroke:#a00}',
    '.level{stroke:#888;stroke-width:.6}text{font:13px sans-serif}</style>',
    `<rect width="${width}" height="${HEIGHT}" fill="#fff"/>`,
    ...panels.lines,
    ...gapDrawing(JSON.parse(gapBefore), panels.width + 50, 'gap before'),
    ...gapDrawing(JSON.parse(gapAfter), panels.width + 205, 'gap after'),
    ...key(24, 474),
    '</svg>',
    '',
  ].join('\n'),
);
