/** The names most like what was typed, for "did you mean": restricted Damerau-Levenshtein distance, capitals ignored. */

/** Changes of one letter, and swaps of two neighbours, that turn `a` into `b`. */
const editDistance = (a: string, b: string): number => {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, beforeLast[j - 2]! + 1);
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
};

/** The longest text that is compared; anything longer is no mistyped name. */
const LONGEST = 80;

/**
 * The name nearest to what was typed, or undefined where none is near: two slips in a word of five letters, then one more for every three; one in a shorter word.
 * Of equally near names the first wins.
 */
export const nearestName = (typed: string, names: readonly string[]): string | undefined => {
  if (typed.length > LONGEST) return undefined;
  const allowed = Math.max(1, Math.floor((typed.length + 1) / 3));
  let nearest: string | undefined;
  let least = allowed + 1;
  for (const name of names) {
    if (name.length > LONGEST) continue;
    const edits = editDistance(typed.toLowerCase(), name.toLowerCase());
    if (edits < least) [nearest, least] = [name, edits];
  }
  return nearest;
};

/** Few enough to choose from at a glance. */
const FEW = 3;

/** The second line of an error about an unknown name: the one or two that go on from it, the nearest one, or all that there are. */
export const suggestName = (typed: string, names: readonly string[]): string => {
  const longer = names.filter((name) => name.startsWith(`${typed}-`));
  if (longer.length > 0 && longer.length <= FEW) return `did you mean ${longer.join(' or ')}?`;
  const nearest = nearestName(typed, names);
  if (nearest !== undefined) return `did you mean ${nearest}?`;
  return names.length === 0 ? 'there are none' : `there are: ${names.join(', ')}`;
};
