import { distance, type Point } from '../geometry/point.ts';
import type { Finding } from '../pattern/finding.ts';
import type { LooseLine } from './rough/loose-lines.ts';

/** Ends nearer together than this, in millimetres, are the two sides of one gap. */
const ONE_GAP = 15;

/** What is said of lines that no outline follows; `panelOf` tells which panel from the left an outline became. */
export const tellLoose = (
  lines: readonly LooseLine[],
  scan: string,
  toMm: (p: Point) => Point,
  panelOf: (outline: number) => number | undefined,
): Finding[] => {
  const told: { how: LooseLine['how']; panel: number | undefined; places: Point[] }[] = [];
  for (const { how, outline, at } of lines) {
    const panel = outline === undefined ? undefined : panelOf(outline);
    if (outline !== undefined && panel === undefined) continue;
    const place = toMm(at);
    const known = told.find(
      (one) =>
        one.how === how &&
        (one.panel === panel || panel === undefined) &&
        one.places.some((p) => distance(p, place) < ONE_GAP),
    );
    if (known === undefined) told.push({ how, panel, places: [place] });
    else known.places.push(place);
  }
  return told.map(({ how, panel, places }) => {
    const x = places.reduce((sum, p) => sum + p.x, 0) / places.length;
    const y = places.reduce((sum, p) => sum + p.y, 0) / places.length;
    const near = nearPlace({ x, y });
    const { weight, kind, says, cure } = (panel === undefined ? ALONE : WORDS)[how];
    return {
      weight,
      kind,
      where: panel === undefined ? scan : `${scan}, panel ${panel} from the left`,
      message: says(near),
      cure,
    };
  });
};

/** A place in millimetres on the scan, in words. */
export const nearPlace = ({ x, y }: Point): string =>
  `near ${x.toFixed(0)} mm from the left and ${y.toFixed(0)} mm from the top of the scan`;

interface Words {
  readonly weight: 'warning' | 'note';
  readonly kind: string;
  readonly says: (near: string) => string;
  readonly cure: string;
}

const OPEN = 'mend the line there with a pen and scan again';
const CUT = 'scan the panel whole, or in parts that overlap with --join';
const APART = 'draw the panels apart, or trace one of them onto paper';

const WORDS: Record<LooseLine['how'], Words> = {
  open: {
    weight: 'warning',
    kind: 'outline-open',
    says: (near) => `a part only was traced: its line runs on and is open ${near}`,
    cure: OPEN,
  },
  cut: {
    weight: 'warning',
    kind: 'outline-cut-off',
    says: (near) => `a part only was traced: its line runs on and out of the picture ${near}`,
    cure: CUT,
  },
  shared: {
    weight: 'warning',
    kind: 'side-shared',
    says: (near) => `its line is the side of something else too, which was left out: they part ${near}`,
    cure: APART,
  },
  branch: {
    weight: 'warning',
    kind: 'lines-branch',
    says: (near) => `another line as wide as its outline branches off it ${near}; the outer one was followed`,
    cure: 'look at the preview; of sizes that share edges, trace the one you want onto paper and scan that',
  },
  divides: {
    weight: 'note',
    kind: 'panel-divided',
    says: (near) => `a line as wide as its outline divides it lengthwise, beginning ${near}`,
    cure: 'if these are two panels with one side in common, draw them apart',
  },
};

const ALONE: Record<LooseLine['how'], Words> = {
  ...WORDS,
  open: {
    weight: 'warning',
    kind: 'line-open',
    says: (near) => `a line that could be a panel's does not close ${near}`,
    cure: OPEN,
  },
  cut: {
    weight: 'warning',
    kind: 'line-cut-off',
    says: (near) => `a line that could be a panel's runs out of the picture ${near}`,
    cure: CUT,
  },
};
