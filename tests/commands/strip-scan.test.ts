/** A scan straight to stitching lines. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { encodeScan } from '../support/scans/encode-scan.ts';
import { makeScan } from '../support/scans/make-scan.ts';
import { tinySheet } from '../support/scans/tiny-sheet.ts';
import { runMain } from '../support/run-main.ts';
import { inFolder, runStaywright } from '../support/run-staywright.ts';

interface Report {
  readonly traced: { readonly panels: readonly { readonly width_mm: number; readonly height_mm: number }[] };
  readonly change: unknown;
}

describe('strip-allowance of a scan', () => {
  it('traces it first, and takes the width off all round', () =>
    inFolder(async (folder) => {
      const { picture } = await makeScan(tinySheet());
      writeFileSync(join(folder, 'scan.png'), await encodeScan(picture, 'png'));
      const words = 'strip-allowance scan.png --test-square 20mm --allowance 3mm'.split(' ');
      const json = await runMain([...words, '-n', '--json'], { cwd: folder });
      const { traced } = JSON.parse(json.stdout) as Report;
      expect(traced.panels).toHaveLength(1);
      expect(traced.panels[0]!.width_mm).toBeCloseTo(24, 1);
      expect(traced.panels[0]!.height_mm).toBeCloseTo(58, 1);

      const ran = await runStaywright(words, { cwd: folder });
      expect(ran.stderr).toMatch(
        /^strip-allowance:\nscan\.png: outlines printed on paper\nscale: from the 20 mm square/,
      );
      expect(ran.stderr).toMatch(
        /\n3\.00 mm: edge-1, edge-2, edge-3, edge-4\n[^]*\nAllowance taken off 1 panel; [^\n]*\n$/,
      );
      expect(ran.stdout).toMatch(/data-line="stitching"/);
      // Where two lines meet that lie 3 mm within those of a corner: by half the angle at the left and at the right.
      const half = Math.PI / 2 - (Math.atan2(12, 30) + Math.atan2(12, 28)) / 2;
      const net = [...ran.stdout.matchAll(/data-kind="edge"[^>]* d="([^"]*)"/g)].map(([, d]) => d).join(' ');
      const xs = [...net.matchAll(/([-\d.]+),[-\d.]+/g)].map(([, x]) => Number(x));
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(24 - 6 / Math.sin(half), 1);
    }));
});
