/**
 * From a scan to panels in true millimetres: outlines are found by what closes upon itself, the scale by the printed square, then each
 * outline is measured in the full picture and its marks are told apart.
 */
import { StaywrightError } from '../errors.ts';
import { pathLength } from '../geometry/arc-length.ts';
import { pathBox } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import { transformPoint } from '../geometry/transform-path.ts';
import type { Finding } from '../pattern/finding.ts';
import { MM_PER_INCH } from '../pattern/format-length.ts';
import { panelOutlines } from './panel-outlines.ts';
import type { Scan } from './read-picture.ts';
import { findOutlines, type FoundOutlines } from './rough/find-outlines.ts';
import { looseLines } from './rough/loose-lines.ts';
import { findSquares } from './scale/find-squares.ts';
import { mustRedo, nominalScale, type NominalScale } from './scale/nominal-scale.ts';
import { oddSetting } from './scale/odd-setting.ts';
import { trueScale, type TrueScale } from './scale/true-scale.ts';
import type { PictureKind } from './rough-outline.ts';
import { nearPlace, tellLoose } from './tell-loose.ts';
import type { TraceAnswers } from './trace-answers.ts';
import { tracePanel } from './trace-panel.ts';
import type { ScanScale, Traced, TracedPanel } from './traced.ts';

/** Told what is being done, for whoever waits. */
export type Say = (what: string) => void;

/** A scan with its rough outlines, and its scale. */
export interface ScaledScan extends TrueScale {
  readonly found: FoundOutlines;
  /** The scale with which the outlines were found. */
  readonly pxPerMm: number;
}

/**
 * Finds a scan's outlines and its scale. A dark lid that shows beside a printed sheet makes that look cut out: where pieces lead to no
 * square or to no panel, printed lines are looked for. Throws a `usage` error where the square is not found or no scale is known.
 */
export const scaleScan = (scan: Scan, answers: TraceAnswers): ScaledScan => {
  const nominal = nominalScale(scan.picture, { typed: answers.dpi, file: scan.dpi });
  const found = findOutlines(scan.picture, nominal.pxPerMm, answers.kind);
  const scaled = tried(() => scaledWith(scan, found, answers, nominal));
  if (answers.kind !== undefined || found.kind === 'line' || showsPanels(scaled)) return settled(scaled);
  const asLines = { ...answers, kind: 'line' } as const;
  const lines = findOutlines(scan.picture, nominal.pxPerMm, 'line');
  const other = tried(() => scaledWith(scan, lines, asLines, nominal));
  return settled(showsPanels(other) ? other : scaled);
};

const scaledWith = (scan: Scan, found: FoundOutlines, answers: TraceAnswers, nominal: NominalScale): ScaledScan => {
  const measured = trueScale(scan, found.outlines, answers, nominal);
  const told = (one: ScaledScan): ScaledScan =>
    one.scale.how === 'test-square'
      ? { ...one, findings: [...one.findings, ...oddSetting(one.scale, nominal, scan.name)] }
      : one;
  if (!mustRedo(nominal, measured.scale)) return told({ ...measured, found, pxPerMm: nominal.pxPerMm });
  const { x, y } = measured.scale.dpi;
  const pxPerMm = (x + y) / 2 / MM_PER_INCH;
  const truly = { dpi: pxPerMm * MM_PER_INCH, pxPerMm, from: 'typed' } as const;
  const again = (kind: PictureKind | undefined): ScaledScan => {
    const better = findOutlines(scan.picture, pxPerMm, kind);
    return { ...trueScale(scan, better.outlines, answers, truly), found: better, pxPerMm };
  };
  // What led to the square is likely right about what the picture shows.
  const alike = tried(() => again(found.kind));
  return told(showsPanels(alike) ? settled(alike) : again(answers.kind));
};

const tried = (scale: () => ScaledScan): ScaledScan | StaywrightError => {
  try {
    return scale();
  } catch (error) {
    if (error instanceof StaywrightError) return error;
    throw error;
  }
};

const settled = (scaled: ScaledScan | StaywrightError): ScaledScan => {
  if (scaled instanceof StaywrightError) throw scaled;
  return scaled;
};

const showsPanels = (scaled: ScaledScan | StaywrightError): boolean =>
  !(scaled instanceof StaywrightError) &&
  panelOutlines(scaled.found.outlines, scaled.pxPerMm, scaled.squares).length > 0;

/** The panels of a scan whose scale is known. Throws an `input` error where it shows none. */
export const tracePanels = (scan: Scan, scaled: ScaledScan, say: Say): Traced => {
  const { found, scale, pxPerMm, findings } = scaled;
  const { outlines, kind, working, cut } = found;
  const squares = scaled.squares.length > 0 ? scaled.squares : likelySquares(found, pxPerMm);
  const candidates = panelOutlines(outlines, pxPerMm, squares);
  if (candidates.length === 0) {
    const open = loose(scan.name, scaled, []).find(({ kind: how }) => how === 'line-open');
    throw nothingFound(scan.name, found, squares.length > 0, open);
  }
  const sighted = { picture: scan.picture, working, kind, pxPerMm };
  const traced = candidates.flatMap((candidate, at): { panel: TracedPanel; outline: number }[] => {
    say(`tracing panel ${at + 1} of ${candidates.length}`);
    const panel = tracePanel(sighted, candidate, scale.toMm);
    return panel === undefined || bridgedShare(panel) > MOST
      ? []
      : [{ panel, outline: outlines.indexOf(candidate.outline) }];
  });
  const ordered = traced.toSorted((a, b) => pathBox(a.panel.outline).minX - pathBox(b.panel.outline).minX);
  const panels = ordered.map(({ panel }) => panel);
  if (panels.length === 0) throw nothingFound(scan.name, found, squares.length > 0);
  const corners = scale.corners ?? findSquares(outlines).find(({ outline }) => outline === squares[0])?.corners;
  return {
    kind,
    scale,
    panels,
    findings: [
      ...findings,
      ...lost(scan.name, candidates.length - panels.length),
      ...cutOff(scan.name, cut),
      ...loose(
        scan.name,
        scaled,
        ordered.map(({ outline }) => outline),
      ),
      ...panels.flatMap((panel, at) => hardToRead(`${scan.name}, panel ${at + 1} from the left`, panel, onScan(scale))),
    ],
    ...(corners === undefined ? {} : { square: corners.map((corner) => transformPoint(corner, scale.toMm)) }),
  };
};

/** Sides of squares that are printed to measure by, in millimetres, and how near a square must come to one. */
const TEST_SIDES = [20, 25.4, 50, 50.8, 100, 101.6];
const SIDE_FITS = 0.03;

/** Where no square was asked for, squares of the sizes that are printed to measure by are still no panels. */
const likelySquares = ({ outlines }: FoundOutlines, pxPerMm: number): number[] =>
  findSquares(outlines)
    .filter(
      ({ edge, side }) =>
        edge === 'ink' && TEST_SIDES.some((size) => Math.abs(side / (size * pxPerMm) - 1) < SIDE_FITS),
    )
    .map(({ outline }) => outline);

const nothingFound = (
  where: string,
  { kind, cut, outlines }: FoundOutlines,
  hasSquare: boolean,
  open?: Finding,
): StaywrightError => {
  const refusal = (message: string, hint: string): StaywrightError =>
    new StaywrightError('input', message, { where, hint });
  if (cut > 0) {
    return refusal(
      'every piece runs out of the picture',
      'scan each piece whole, or in parts that overlap with --join',
    );
  }
  if (kind === 'cutout') {
    return refusal(
      hasSquare ? 'shows no panel beside the test square' : 'shows no piece of paper',
      'lay pieces on card that is much darker or lighter than they are; for printed outlines say --kind line',
    );
  }
  const closing = open
    ? `${open.message}: mend it with a pen and scan again`
    : 'each outline must close: mend gaps over 0.6 mm with a pen and scan again';
  if (hasSquare) return refusal('shows nothing but the test square', closing);
  if (outlines.length > 0) {
    return refusal('shows no panel', `${closing}; what is smaller than 20 by 8 mm is taken for a mark`);
  }
  return refusal(
    'shows no line that closes',
    `did the sheet lie face down? ${closing}; for pieces cut out of paper say --kind cutout`,
  );
};

/** Millimetres from the scan's left and top. */
const onScan =
  ({ dpi }: ScanScale) =>
  ({ x, y }: Point): Point => ({ x: (x * MM_PER_INCH) / dpi.x, y: (y * MM_PER_INCH) / dpi.y });

/** Lines as wide as outlines that no panel follows. */
const loose = (where: string, { found, scale, pxPerMm }: ScaledScan, panels: readonly number[]): Finding[] => {
  if (found.kind !== 'line') return [];
  const number = (outline: number): number | undefined => panels.indexOf(outline) + 1 || undefined;
  return tellLoose(looseLines(found.working, found.outlines, pxPerMm), where, onScan(scale), number);
};

/** An outline of which more than this share could not be read is to be looked at. */
const MUCH = 0.2;

/** What could be read of less than the rest of this share is no outline. */
const MOST = 0.75;

/** An outline that strays so far, in millimetres, is to be looked at too. */
const FAR = 0.06;

const bridgedShare = ({ outline, bridged }: Pick<TracedPanel, 'outline' | 'bridged'>): number =>
  bridged / pathLength(outline);

const hardToRead = (
  where: string,
  { outline, bridged, spread, unseen }: TracedPanel,
  toMm: (p: Point) => Point,
): Finding[] => {
  const share = bridgedShare({ outline, bridged });
  const tell = (kind: string, message: string, cure: string): Finding => ({
    weight: 'warning',
    kind,
    where,
    message,
    cure,
  });
  return [
    ...unseen.map((corner) =>
      tell(
        'corner-unseen',
        `its corner ${nearPlace(toMm(corner))} cannot be seen, and is where the line, carried on, leads`,
        'look at the preview; free the line there of what lies over it',
      ),
    ),
    ...(share > MUCH
      ? [
          tell(
            'outline-bridged',
            `${Math.round(100 * share)} % of its outline could not be read and was bridged`,
            'look at the preview; free the line of what touches it, or go over it with a pen',
          ),
        ]
      : []),
    ...(spread > FAR
      ? [
          tell(
            'outline-uneven',
            `its line is ${spread.toFixed(2)} mm off a smooth outline on average`,
            'look at the preview; a line drawn by hand is to be traced along a ruler or a curve first',
          ),
        ]
      : []),
  ];
};

const lost = (where: string, count: number): Finding[] =>
  count === 0
    ? []
    : [
        {
          weight: 'warning',
          kind: 'outline-not-read',
          where,
          message: `${count} closed ${count === 1 ? 'outline is' : 'outlines are'} too faint or too covered to be measured`,
          cure: 'look at the preview; go over it with a pen, or scan darker',
        },
      ];

const cutOff = (where: string, count: number): Finding[] =>
  count === 0
    ? []
    : [
        {
          weight: 'warning',
          kind: 'piece-cut-off',
          where,
          message: `${count} ${count === 1 ? 'piece runs' : 'pieces run'} out of the picture and ${count === 1 ? 'is' : 'are'} left out`,
          cure: 'scan each piece whole, or in parts that overlap with --join',
        },
      ];
