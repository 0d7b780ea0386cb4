/** What the list of commands knows of each, so that help need not load any. */
export interface CommandEntry {
  readonly group: string;
  readonly name: string;
  readonly summary: string;
}

/** The help of the tool itself: a pipe first, then the commands by group. */
export const mainHelp = (entries: readonly CommandEntry[]): string => {
  const groups = [...new Set(entries.map(({ group }) => group))];
  const column = Math.max(...entries.map(({ name }) => name.length)) + 4;
  return `staywright: exact alterations for boned garments, on SVG pattern sheets

  # what does this size measure, once its seam allowance is off?
  staywright strip-allowance sized.svg --allowance 15mm -o net.svg
  staywright girth net.svg

  # take in the centre back above the waist, draw new allowance, print
  staywright take-in net.svg --seam cb --amount 1/2in --above waist |
    staywright add-allowance --allowance 15mm --pdf print.pdf -o cut.svg

Usage: staywright COMMAND [FILE.svg | DIR/ | -] [options]
${groups
  .map((group) => {
    const lines = entries
      .filter((entry) => entry.group === group)
      .map(({ name, summary }) => `  ${name.padEnd(column - 2)}${summary}`);
    return `\n${group}\n${lines.join('\n')}\n`;
  })
  .join('')}
Sheets go to standard output and words to standard error, so commands pipe.
With no FILE, or with -, the sheet is read from standard input.
Lengths carry their unit: 12mm, 1.2cm, 0.5in, 5/8in, "1 1/2in".
Levels: waist, waist+2in (above it), waist-3in (below it), top, bottom.

  staywright help COMMAND        its options, with examples
  staywright completion SHELL    completion for bash, zsh or fish
  staywright --version           which version this is
`;
};
