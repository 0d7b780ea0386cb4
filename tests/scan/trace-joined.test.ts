import { describe, expect, it } from 'vitest';
import { traceJoined } from '../../src/scan/trace-joined.ts';
import { closeSheet } from '../support/scans/cases.ts';
import { truthOf } from '../support/scans/lay-out.ts';
import { makeStrips } from '../support/scans/make-strips.ts';
import { scoreTrace } from '../support/scans/score-trace.ts';

const SPEC = {
  kind: 'line',
  dpi: 300,
  ...closeSheet(),
  noise: 3,
  jpeg: 75,
  scaleX: 1.015,
  scaleY: 0.992,
  lamp: { slope: 0.15, toward: 40, vignette: 0.08 },
  seed: 5,
} as const;

describe('strips that are joined and traced', () => {
  it('are true over their whole length, and lie as the square says, though the second alone shows it', async () => {
    const strips = await makeStrips(SPEC, [
      { window: { x: 0, y: 0, width: 82, height: 62 }, turn: 1.4 },
      { window: { x: 0, y: 38, width: 82, height: 64 }, turn: -0.9 },
    ]);
    const scans = strips.map(({ picture }, at) => ({
      name: `${at}.png`,
      picture,
      dpi: 300,
      isBilevel: false,
      notes: [],
    }));
    const { traced, misfit } = traceJoined(scans, { testSquare: SPEC.square!.side }, () => {});
    const truth = truthOf(SPEC);
    const score = scoreTrace(traced.panels, truth);
    expect({ missing: score.missing, extra: score.extra }).toEqual({ missing: [], extra: 0 });
    expect(score.max).toBeLessThan(0.05);
    expect(score.corner).toBeLessThan(0.05);
    expect(misfit.rms).toBeLessThan(0.02);
    const [drawn] = truth.panels.flatMap(({ across }) => across);
    const [found] = traced.panels.flatMap(({ marks }) => marks.across);
    const slope = ({ start, end }: typeof found & object) => Math.atan2(end.y - start.y, end.x - start.x);
    expect(slope(found!) - slope(drawn!)).toBeCloseTo(0, 3);
  });
});
