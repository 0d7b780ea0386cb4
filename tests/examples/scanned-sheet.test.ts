import { statSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { nearestPoint } from '../../src/geometry/nearest-point.ts';
import { pathLength } from '../../src/geometry/arc-length.ts';
import { readPicture } from '../../src/scan/read-picture.ts';
import { samplesOf } from '../support/scans/dense-outline.ts';
import { encodeScan } from '../support/scans/encode-scan.ts';
import { drawScan } from '../support/scans/make-scan.ts';
import { ALLOWANCE, MARIONETTE, NET_WIDTHS, marionetteScan } from '../support/scans/marionette-sheet.ts';

const FILE = fileURLToPath(new URL('../../examples/scanned-stays.jpg', import.meta.url));
const UPDATE = process.env['UPDATE'] === '1';

describe('the scanned sheet of the example', () => {
  it('shows what its source draws, grey for grey but for what compression changed', async () => {
    const spec = marionetteScan();
    const { picture } = drawScan(spec);
    if (UPDATE) {
      writeFileSync(FILE, await encodeScan(picture, 'jpeg', { quality: 75, density: spec.dpi }));
      throw new Error('examples/scanned-stays.jpg was rewritten: look at it before you commit it');
    }
    const { picture: kept, dpi } = await readPicture(FILE, 'scanned-stays.jpg');
    expect([kept.width, kept.height, dpi]).toEqual([picture.width, picture.height, spec.dpi]);
    expect(differenceOf(kept.grey, picture.grey)).toBeLessThan(2.5);
    const again = await readPicture(await encodeScan(picture, 'jpeg', { quality: 75 }), 'again');
    expect(differenceOf(kept.grey, again.picture.grey)).toBeLessThan(0.1);
    expect(statSync(FILE).size).toBeLessThan(450_000);
  });

  it('is printed 10 mm outside net panels whose seams match', () => {
    for (const [i, { net, printed }] of MARIONETTE.entries()) {
      const line = { segments: net.flatMap(({ segments }) => segments) };
      const away = samplesOf(printed.outline, 1).map((p) => nearestPoint(line, p).distance);
      expect(Math.min(...away)).toBeGreaterThan(ALLOWANCE - 0.01);
      const inside = samplesOf(line, 1).map((p) => nearestPoint(printed.outline, p).distance);
      expect(Math.max(...inside)).toBeLessThan(ALLOWANCE + 0.01);
      const { waist, bust } = NET_WIDTHS[i]!;
      expect(printed.across.map(({ start, end }) => end.x - start.x)).toEqual([
        expect.closeTo(bust + 2 * ALLOWANCE, 1),
        expect.closeTo(waist + 2 * ALLOWANCE, 1),
      ]);
    }
    const mates = MARIONETTE.slice(1).map(({ net }, i) =>
      [MARIONETTE[i]!.net[1]!, net[3]!].map((path) => pathLength(path)),
    );
    for (const [back, front] of mates) expect(front).toBeCloseTo(back!, 9);
  });
});

/** The mean difference of two pictures' greys. */
const differenceOf = (a: Uint8Array, b: Uint8Array): number =>
  a.reduce((sum, grey, i) => sum + Math.abs(grey - b[i]!), 0) / a.length;
