/**
 * Out and in again: panels are printed to a PDF, poppler draws its pages as a printer would, and what is traced from those must be the
 * panels. Neither the way out nor the way in knows of the other.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pathBox } from '../../src/geometry/box.ts';
import { movePoint } from '../../src/geometry/point.ts';
import { translatePath } from '../../src/geometry/transform-path.ts';
import { vector } from '../../src/geometry/vector.ts';
import { unlabelledPattern } from '../../src/labelling/unlabelled-pattern.ts';
import { paperNamed } from '../../src/print/paper-size.ts';
import { printPattern } from '../../src/print/print-pattern.ts';
import { readPicture } from '../../src/scan/read-picture.ts';
import { scaleScan, tracePanels } from '../../src/scan/trace-picture.ts';
import type { Traced, TracedPanel } from '../../src/scan/traced.ts';
import { readSvg } from '../../src/svg/read-svg.ts';
import { writeDrawing } from '../../src/svg/write-drawing.ts';
import { MARIONETTE } from '../support/scans/marionette-sheet.ts';
import { scoreTrace } from '../support/scans/score-trace.ts';

const hasPoppler = spawnSync('pdftoppm', ['-v']).error === undefined;

let folder = '';
let pages: Traced[] = [];

const trace = async (page: string): Promise<Traced> => {
  const scan = await readPicture(join(folder, page), page);
  return tracePanels(scan, scaleScan(scan, { dpi: 300 }), () => {});
};

beforeAll(async () => {
  if (!hasPoppler) return;
  folder = mkdtempSync(join(tmpdir(), 'printed-then-traced-'));
  const drawn = MARIONETTE.map(({ name, printed: { outline } }, at) => ({
    id: name,
    outlines: [translatePath(outline, vector(at * 100, 0))],
    levels: [],
    notches: [],
    grain: [],
    art: [],
  }));
  const reading = readSvg(writeDrawing('marionette', drawn), 'marionette.svg');
  if (reading.kind === 'sheet') throw new Error('a sheet');
  const { pattern } = unlabelledPattern(reading.drawing, 'mm');
  const bytes = await printPattern(pattern, {
    paper: paperNamed('a4'),
    margin: 10,
    overlap: 10,
    hash: 'c0ffee5ad1',
    changes: [],
    version: '1.2.3',
    title: 'marionette',
  });
  const file = join(folder, 'print.pdf');
  writeFileSync(file, bytes);
  execFileSync('pdftoppm', ['-r', '300', '-gray', '-png', '-f', '2', file, join(folder, 'page')]);
  const pictures = readdirSync(folder).filter((name) => name.endsWith('.png'));
  pages = await Promise.all(pictures.toSorted().map(trace));
});

afterAll(() => {
  if (folder !== '') rmSync(folder, { recursive: true });
});

/** The truth of a panel, laid where the traced one lies. */
const laidOn = ({ printed: { outline, corners } }: (typeof MARIONETTE)[number], traced: TracedPanel) => {
  const [from, to] = [pathBox(outline), pathBox(traced.outline)];
  const shift = vector(to.minX - from.minX, to.minY - from.minY);
  return {
    outline: translatePath(outline, shift),
    corners: corners.map((corner) => movePoint(corner, shift)),
    notches: [],
    grain: [],
    across: [],
  };
};

describe.runIf(hasPoppler)('panels that were printed and drawn by poppler', () => {
  it('are traced as they were, corners and all', () => {
    const traced = pages.flatMap(({ panels }) => panels);
    expect(traced).toHaveLength(MARIONETTE.length);
    for (const panel of MARIONETTE) {
      const scores = traced.map((one) => scoreTrace([one], { panels: [{ name: panel.name, ...laidOn(panel, one) }] }));
      const best = scores.toSorted((a, b) => a.rms - b.rms)[0]!;
      expect({ missed: best.missedCorners, invented: best.inventedCorners }).toEqual({ missed: 0, invented: 0 });
      expect(best.rms).toBeLessThan(0.01);
      expect(best.max).toBeLessThan(0.03);
      expect(best.corner).toBeLessThan(0.03);
    }
  });
});
