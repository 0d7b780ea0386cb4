import { afterEach, describe, expect, it, vi } from 'vitest';
import { pageFindings, pagesOf } from '../../src/cli/pages.ts';
import { takeSide } from '../../src/cli/one-side.ts';
import { splitSides } from '../../src/alterations/split-sides.ts';
import { hashGeometry } from '../../src/record/hash-geometry.ts';
import { boxPattern } from '../support/box-pattern.ts';
import { readPdf } from '../support/read-pdf.ts';

const sheet = { pattern: boxPattern(2), record: [] };

describe('the pages of a sheet', () => {
  afterEach(() => vi.unstubAllEnvs());

  it('bear no date, or the one of SOURCE_DATE_EPOCH', async () => {
    vi.stubEnv('SOURCE_DATE_EPOCH', '');
    const plain = await readPdf(await pagesOf(sheet, {}));
    expect(plain.info['CreationDate']).toBeUndefined();
    vi.stubEnv('SOURCE_DATE_EPOCH', '86400');
    const dated = await readPdf(await pagesOf(sheet, {}));
    expect(dated.info['CreationDate']).toBe('D:19700102000000Z');
  });

  it('are refused a SOURCE_DATE_EPOCH that is no number of seconds', () => {
    vi.stubEnv('SOURCE_DATE_EPOCH', 'soon');
    expect(() => pagesOf(sheet, {})).toThrow(/soon is no whole number of seconds/);
  });

  it('of one side bear the version of the whole sheet, as its record has it', async () => {
    const { pattern } = splitSides(boxPattern(2));
    const version = `version ${hashGeometry(pattern).slice(0, 12)}`;
    for (const side of ['left', 'right'] as const) {
      const { pages } = await readPdf(await pagesOf(takeSide({ pattern, record: [] }, side), {}));
      expect(pages[0]!.text).toContain(version);
    }
  });

  it('come with a warning where the margin is narrow', () => {
    expect(pageFindings(sheet, { margin: '5mm' })).toMatchObject([{ kind: 'narrow-margin' }]);
    expect(pageFindings(sheet, {})).toEqual([]);
  });
});
