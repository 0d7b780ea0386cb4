/** Every tolerance of the geometry in one place, in millimetres unless said, each with its reason. */

/** Offsets: the bound promised to a maker is 0.02 mm; the fit aims at half of it, the rest is for rounding and corners. */
export const OFFSET_TOLERANCE = 0.01;

/** To the offset, shorter segments are crumbs: what rounding to 3 decimals leaves of a mitre's arms when its width comes off again. */
export const OFFSET_CRUMB = 0.005;

/** Refitting an altered seam: 50 alterations in a chain must stay within 0.1 mm. */
export const REFIT_TOLERANCE = 0.001;

/** Arc lengths: a hundredth of what a seam gauge shows, so that sums over a panel stay exact to 0.01 mm. */
export const LENGTH_TOLERANCE = 0.0001;

/** Points nearer than this are one point: below the 3 decimals that a sheet is written with. */
export const SAME_POINT = 0.0005;

/** A turn of the tangent above this (radians, about 0.6 degrees) is a corner; below, drawn curves pass as smooth. */
export const CORNER_TURN = 0.01;

/** Crossings and nearest points are polished to this: far above rounding of coordinates of some metres, far below what is written. */
export const CROSSING_TOLERANCE = 1e-8;

/** A derivative below this fraction of a curve's size has no direction of its own: it is what rounding leaves of zero. */
export const STILL = 1e-9;

/** A trimmed end shorter than this is no segment of its own, so that trimming and extending in a chain does not collect crumbs. */
export const CRUMB = 0.002;

/** How far an edge may be extended, as a multiple of the gap it has to close: past that the two edges run within 3 degrees of parallel. */
export const EXTENSION_LIMIT = 20;

/** A last segment shorter than this says little about direction once its ends are rounded to 3 decimals: 0.5 mm leaves 0.1 degrees. */
export const STUB = 0.5;

/** Decimals of a millimetre that are written: a thousandth is far below what is drawn or cut, and keeps sheets small. */
export const DECIMALS = 3;

/** A break in an alteration this near a node makes no node of its own: blends are flat there, so the amount differs by under 0.002 mm. */
export const BREAK_NEAR_NODE = 0.02;

/** Arcs become cubics that stay this near: a tenth of what an offset may err, so that drawn circles stay true through both. */
export const ARC_TOLERANCE = 0.001;

/** Handles off their chord by less than this share of its length draw a line: only rounding of numbers, no drawn curve, is so flat. */
export const STRAIGHTNESS = 1e-9;

/** Ends of drawn lines this near are meant to meet: half the width of a pencil line's reading. */
export const JOIN_GAP = 0.5;

/** A closed shape nowhere wider than this encloses nothing: a line drawn there and back. */
export const FLAT_WIDTH = 0.05;

/** Pieces of two curves smaller than this share of the larger are near enough to their crossing for Newton's steps to find it. */
export const SEED_SHARE = 1e-4;

/** Least squares are damped by this share, so that a step exists where two curves run parallel and touch; far below what it could hide. */
export const DAMPING = 1e-12;

/** A step in the parameter, as a share of the curve, to a place that has a direction when the end itself has none. */
export const NEARBY = 1e-4;

/**
 * A fitted handle is at least this part of the curve's length, so that it keeps its direction when it is written to 3 decimals, and no
 * sharp bend hides in the curve's end.
 */
export const SHORTEST_HANDLE = 1 / 25;

/** Clearance: chords stand in for the path this far off at most; questions closer than that are settled on the curve itself. */
export const CHORD_ERROR = 0.04;

/** Clearance: nearer than a width by less than this is not too near; true parallels are exact to far less. */
export const CLEARANCE_SLACK = 1e-5;

/** Crossings of an offset with itself are looked for on links this near to it: shallower loops do not show, and their ends are tried apart. */
export const LINK_ERROR = 0.01;

/** An end of an offset this near to the line that goes on counts as on it: what two offsets within tolerance may be out. */
export const OFFSET_TOUCH = 2 * OFFSET_TOLERANCE;

/** A stretch of an offset longer than this, clear and yet not passed, is a part of its own; shorter ones are what rounding leaves. */
export const LEFT_OVER = 0.1;

/** A tangent followed along a parallel may leave it by this much and still count as the parallel: it does not show at 3 decimals. */
export const STRAIGHT_ENOUGH = 0.0005;

/** Turns (radians) below this leave a gap of 0.00008 mm at 40 mm: the two ends are put together half-way. */
export const SMOOTH_TURN = 2e-6;

/** A turn (radians, about 1 degree) below this adds no mitre line to a straight side: the side itself is made longer or shorter. */
export const SLIGHT_TURN = 0.02;

/** An offset met by itself at parameters nearer than this is no crossing. */
export const SAME_PARAMETER = 1e-7;

/** As a share of a link, how far beyond its ends a crossing is still looked into: rounding must not lose one at a joint. */
export const LINK_HAIR = 1e-6;

/** Damping of the normal matrix of an offset's fit: enough to keep it regular, too little to hold back a step that matters. */
export const FIT_DAMPING = 1e-6;

/** Steps of an offset's fit smaller than this share of the chord change nothing that shows. */
export const FIT_SETTLED = 1e-4;

/** Newton has settled on a parameter when its step is smaller than this. */
export const PARAMETER_SETTLED = 1e-8;

/** Parallels meet when they are this near: the last digits that numbers of this size hold. */
export const STRANDS_MEET = 1e-8;

/** Least squares on an outline's readings have settled when a round lessens the sum of squares by less than this share: far below its own doubt. */
export const ADJUST_SETTLED = 1e-5;

/** Levenberg and Marquardt's damping, as a share of the normal matrix: below the first it no longer shows, above the second no step is left. */
export const LEAST_DAMPING = 1e-6;
export const MOST_DAMPING = 1e4;
