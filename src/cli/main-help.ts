import { LENGTH_NOTE, LEVEL_NOTE, REPORTS_NOTE, STREAM_NOTES, TOOL_EXAMPLES, TOOL_SUMMARY } from './tool-texts.ts';

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
  const examples = TOOL_EXAMPLES.map(({ says, line }) => `\n  # ${says}\n${line.replaceAll(/^/gm, '  ')}\n`);
  return `staywright: ${TOOL_SUMMARY}
${examples.join('')}
Usage: staywright COMMAND [FILE.svg | DIR/ | -] [options]
${groups
  .map((group) => {
    const lines = entries
      .filter((entry) => entry.group === group)
      .map(({ name, summary }) => `  ${name.padEnd(column - 2)}${summary}`);
    return `\n${group}\n${lines.join('\n')}\n`;
  })
  .join('')}
${[...STREAM_NOTES, LENGTH_NOTE, LEVEL_NOTE, REPORTS_NOTE].join('\n')}

  staywright help COMMAND        its options, with examples
  staywright completion SHELL    completion for bash, zsh or fish
  staywright --version           which version this is
`;
};
