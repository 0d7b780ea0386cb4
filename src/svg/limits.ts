/**
 * How much of a file is read, so that no file can stop the program: every limit in one place, each far above what a
 * drawing of patterns needs. Passing one is an error that says so.
 */

/** Size of a file in bytes: a drawn pattern has some hundred kilobytes, with embedded pictures some megabytes. */
export const MOST_BYTES = 64 * 1024 * 1024;

/** Elements within elements: drawing programs nest ten or twenty deep. */
export const MOST_DEPTH = 512;

/** Elements of one file. */
export const MOST_ELEMENTS = 500_000;

/** Elements drawn through `use`, counted over the whole drawing: a few lines of `use` can stand for billions. */
export const MOST_USED_ELEMENTS = 100_000;

/** Commands of one path: a traced outline has some thousand. */
export const MOST_PATH_COMMANDS = 100_000;

/** Entities declared in a document type, and the characters that one may stand for: drawing programs abbreviate namespaces so. */
export const MOST_ENTITIES = 100;
export const MOST_ENTITY_LENGTH = 1_000;

/** Characters that come from entities, over the whole file. */
export const MOST_ENTITY_GROWTH = 1_000_000;

/** Millimetres from the origin that anything may be drawn at: far beyond any guide line that a drawing program draws. */
export const MOST_DISTANCE = 100_000_000;

/** Millimetres across one panel: beyond it the drawing has a wrong scale or wrong numbers. */
export const MOST_PANEL_SIZE = 100_000;

/** Sizes of a panel in millimetres outside of which the scale is asked about. */
export const LEAST_LIKELY_SIZE = 20;
export const MOST_LIKELY_SIZE = 2_500;
