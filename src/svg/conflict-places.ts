/** What git leaves in a file that two versions changed in the same lines, read by lines: with its marks in it the file is no XML. */

/** One thing that differs between the two halves of a conflict. */
export interface ConflictPlace {
  /** The line of git's mark, from 1. */
  readonly line: number;
  /** The panel that it belongs to; absent for the record and for the sheet itself. */
  readonly panel?: string;
  /** `edge cb`, `level bust`, `the record of changes`. */
  readonly thing: string;
}

export interface Conflicts {
  readonly places: readonly ConflictPlace[];
  /** The line of the first mark. */
  readonly line: number;
  /** Lines of the record that stand in the first halves, in the second ones, and outside. */
  readonly record: {
    readonly first: readonly string[];
    readonly second: readonly string[];
    readonly both: readonly string[];
  };
}

type Half = keyof Conflicts['record'];

/** Cheap to look for: a text without them is the rule. */
const ANY_MARK = /^[<>]{7}(?= |$)/m;
const MARK = /^(?:<{7}|\|{7}|={7}|>{7})(?= |$)/;

/** Where a line stands, as far as the lines before it say. */
interface Standing {
  readonly panel?: string;
  readonly thing: string;
}

const SHEET: Standing = { thing: 'the sheet itself' };

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' };

const attributeOf = (name: string): ((line: string) => string | undefined) => {
  const value = new RegExp(`\\s${name}="([^"]*)"`);
  return (line) => value.exec(line)?.[1]?.replace(/&(lt|gt|quot|apos|amp);/g, (_, key: string) => ENTITIES[key]!);
};

const [idOf, kindOf, edgeOf, levelOf, gussetOf] = [
  attributeOf('id'),
  attributeOf('data-kind'),
  attributeOf('data-edge'),
  attributeOf('data-level'),
  attributeOf('data-gusset'),
] as const;

/** What a line begins or goes on with: a path runs over many lines. */
const standingOn = (line: string, before: Standing): Standing => {
  const text = line.trimStart();
  if (/^\{"(?:command|panel)":/.test(text)) return { thing: 'the record of changes' };
  if (text.startsWith('<g ') && kindOf(text) === 'panel') {
    return { panel: idOf(text) ?? '', thing: 'its place on the sheet' };
  }
  if (text.startsWith('</g>') && before.panel !== undefined && before.thing !== 'artwork') return SHEET;
  if (!text.startsWith('<')) return before;
  const panel = before.panel === undefined ? {} : { panel: before.panel };
  return { ...panel, thing: thingOf(text) };
};

const thingOf = (text: string): string => {
  switch (kindOf(text)) {
    case 'edge':
      return `edge ${edgeOf(text)}`;
    case 'level':
      return `level ${levelOf(text)}`;
    case 'notch':
      return `notch on ${edgeOf(text)}`;
    case 'slit':
      return `opening for ${gussetOf(text)}`;
    case 'grain':
      return 'grainline';
    case 'cutting':
      return 'cutting line';
    case 'bone':
      return 'bone';
    case 'label':
      return 'names';
    default:
      return text.startsWith('<svg') ? 'its size' : 'artwork';
  }
};

/** The things of both halves whose lines differ, in the order in which they stand. */
const differing = (first: readonly Placed[], second: readonly Placed[]): Standing[] => {
  const all = new Map<string, { readonly standing: Standing; first: string; second: string }>();
  for (const [half, placed] of [['first', first] as const, ['second', second] as const]) {
    for (const { line, standing } of placed) {
      const key = JSON.stringify([standing.panel, standing.thing]);
      const lines = all.get(key) ?? { standing, first: '', second: '' };
      lines[half] += `${line}\n`;
      all.set(key, lines);
    }
  }
  return [...all.values()].flatMap((lines) => (lines.first === lines.second ? [] : [lines.standing]));
};

interface Placed {
  readonly line: string;
  readonly standing: Standing;
}

/**
 * Reads git's marks in the text of a sheet: what both versions changed, and where. Undefined where there is no mark; a file that is
 * laid out otherwise than staywright writes it may give no more than the lines.
 */
export const conflictPlaces = (source: string): Conflicts | undefined => {
  if (!ANY_MARK.test(source)) return undefined;
  const places: ConflictPlace[] = [];
  const record: Record<Half, string[]> = { first: [], second: [], both: [] };
  const halves: { first: Placed[]; second: Placed[] } = { first: [], second: [] };
  let half: Half | 'base' = 'both';
  let [standing, start] = [SHEET, SHEET];
  let [line, firstMark, lastMark] = [0, 0, 0];
  for (const text of source.split('\n')) {
    line += 1;
    const mark = MARK.exec(text)?.[0][0];
    if (mark === undefined) {
      standing = standingOn(text, standing);
      if (half === 'base') continue;
      if (half !== 'both') halves[half].push({ line: text, standing });
      if (text.startsWith('{"command":')) record[half].push(text);
      continue;
    }
    // A row of such signs may stand in a text; only what begins with git's first mark or ends with its last one is a conflict.
    if (half === 'both' && mark !== '<' && mark !== '>') continue;
    firstMark ||= line;
    if (mark === '<') {
      [half, start, lastMark] = ['first', standing, line];
      [halves.first, halves.second] = [[], []];
    } else if (mark === '>') {
      for (const place of differing(halves.first, halves.second)) places.push({ line: lastMark, ...place });
      [halves.first, halves.second] = [[], []];
      half = 'both';
    } else {
      half = mark === '|' ? 'base' : 'second';
      standing = start;
    }
  }
  return firstMark === 0 ? undefined : { places, line: firstMark, record };
};
