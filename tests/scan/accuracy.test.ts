/** Every kind of scan the accuracy is promised for, traced and held against outlines that are known exactly. */
import { afterAll, describe, expect, it } from 'vitest';
import { scaleScan, tracePanels } from '../../src/scan/trace-picture.ts';
import { scanCases } from '../support/scans/cases.ts';
import { makeScan } from '../support/scans/make-scan.ts';
import { scoreTable, type ScoreRow } from '../support/scans/score-table.ts';
import { scoreTrace } from '../support/scans/score-trace.ts';

const MOST_SEGMENTS = 24;

/** Notches, grain and lines across, in millimetres. */
const MARKS = 0.1;

describe('what is traced', () => {
  const rows: ScoreRow[] = [];
  afterAll(() => console.log(`\nerrors of traced scans in mm, worst panel\n${scoreTable(rows)}\n`));

  it.each(scanCases(1))('is as true as promised: $name', async ({ name, spec, goal }) => {
    const { picture, truth } = await makeScan(spec);
    const started = performance.now();
    const scan = { name, picture, dpi: spec.dpi, isBilevel: spec.threshold !== undefined, notes: [] };
    const { kind, panels } = tracePanels(scan, scaleScan(scan, { testSquare: spec.square!.side }), () => {});
    const seconds = (performance.now() - started) / 1000;
    const score = scoreTrace(panels, truth);
    rows.push({ name, score, goal, seconds });
    expect(kind).toBe(spec.kind);
    expect({ missing: score.missing, extra: score.extra }).toEqual({ missing: [], extra: 0 });
    expect({ missed: score.missedCorners, invented: score.inventedCorners }).toEqual({ missed: 0, invented: 0 });
    expect({ missed: score.missedMarks, invented: score.inventedMarks }).toEqual({ missed: 0, invented: 0 });
    expect(score.segments).toBeLessThanOrEqual(MOST_SEGMENTS);
    expect(score.rms).toBeLessThanOrEqual(goal.rms);
    expect(score.max).toBeLessThanOrEqual(goal.max);
    expect(score.corner).toBeLessThanOrEqual(goal.corner);
    expect(Math.max(score.notch, score.grain, score.waist)).toBeLessThanOrEqual(MARKS);
  });
});
