/** What a long command is doing, on one line of the terminal that is gone when it is done. */

/** Says what is being done now, like `reading front.png`. */
export type Say = (words: string) => void;

/** Where the words go, and what is known of it; the parts of standard error and the environment that matter here. */
export interface ProgressOutput {
  readonly stream: { readonly isTTY?: boolean; readonly columns?: number; write(text: string): unknown };
  readonly env: Readonly<Record<string, string | undefined>>;
}

export interface ProgressOptions {
  readonly quiet?: boolean;
}

/** Short work stays silent; the first words come well within the first second. */
const SILENT_MS = 500;

const ERASE = '\r\u001B[K';
/** Where a terminal does not know its own, or says 0. */
const DEFAULT_COLUMNS = 80;

/**
 * Does some work that may take long. What it says appears on a terminal alone, once the work has taken half a second, each time in place
 * of the words before, and is wiped off at the end, also where the work fails. A terminal that cannot wipe (`TERM=dumb`) is told nothing,
 * nor is one under --quiet; there is no colour that `NO_COLOR` could forbid.
 *
 * The words come out while the work waits for something; work that keeps the processor to itself shows them at its next `say`.
 */
export const withProgress = async <Result>(
  work: (say: Say) => Promise<Result>,
  { quiet = false }: ProgressOptions = {},
  { stream, env }: ProgressOutput = { stream: process.stderr, env: process.env },
): Promise<Result> => {
  if (quiet || stream.isTTY !== true || env['TERM'] === 'dumb') return work(() => {});
  const started = performance.now();
  let words = '';
  let shown = '';
  const show = (): void => {
    if (words === shown) return;
    stream.write(`${ERASE}${fitting(words, stream.columns || DEFAULT_COLUMNS)}`);
    shown = words;
  };
  const timer = setTimeout(show, SILENT_MS);
  timer.unref();
  try {
    return await work((next) => {
      words = next;
      if (performance.now() - started >= SILENT_MS) show();
    });
  } finally {
    clearTimeout(timer);
    if (shown !== '') stream.write(ERASE);
  }
};

/** A line that wrapped could not be wiped off; letters beyond the Latin ones may be two columns wide. */
const fitting = (words: string, columns: number): string => {
  let [line, width] = ['', 0];
  for (const letter of `${words} ...`.replaceAll(/\p{Cc}/gu, ' ')) {
    width += letter > '\u02FF' ? 2 : 1;
    if (width >= columns) break;
    line += letter;
  }
  return line;
};
