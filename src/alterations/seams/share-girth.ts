import { StaywrightError } from '../../errors.ts';
import { timesRound } from '../../pattern/girth-at.ts';
import type { Seam } from '../../pattern/look-up.ts';
import type { Pattern } from '../../pattern/pattern.ts';
import { suggestName } from '../../pattern/suggest.ts';

const checkShares = (seams: readonly Seam[], share: Readonly<Record<string, number>>): void => {
  const names = seams.map(({ name }) => name);
  for (const [name, part] of Object.entries(share)) {
    if (!names.includes(name)) {
      throw new StaywrightError('usage', `${name} is not among the seams to move`, {
        where: '--share',
        hint: suggestName(name, names),
      });
    }
    if (Number.isFinite(part) && part > 0) continue;
    throw new StaywrightError('usage', `the share of ${name} is ${part}`, {
      where: '--share',
      hint: 'give each seam a number above 0, such as cb=4',
    });
  }
  const missing = names.filter((name) => share[name] === undefined);
  if (missing.length === 0) return;
  throw new StaywrightError('usage', `has no part for ${missing.join(', ')}`, {
    where: '--share',
    hint: 'give every seam its part, or leave out --share to divide equally',
  });
};

/**
 * What each stitching line of each seam moves so that the girth changes by `girth` in all: equally over all lines round the body,
 * or with `share` each seam its part of the whole, divided equally over its own lines. In the order of `seams`.
 *
 * @throws usage where `share` does not fit the seams.
 */
export const shareGirth = (
  pattern: Pattern,
  seams: readonly Seam[],
  girth: number,
  share?: Readonly<Record<string, number>>,
): number[] => {
  const lines = seams.map(({ edges }) => edges.length * timesRound(pattern));
  if (!share) {
    const all = lines.reduce((sum, count) => sum + count, 0);
    return seams.map(() => girth / all);
  }
  checkShares(seams, share);
  const parts = seams.map(({ name }) => share[name]!);
  const whole = parts.reduce((sum, part) => sum + part, 0);
  return parts.map((part, index) => (girth * part) / whole / lines[index]!);
};
