/** The text as one word of a POSIX shell, quoted only where it must be. */
export const shellWord = (text: string): string =>
  /^[\w@%+=:,./-]+$/.test(text) ? text : `'${text.replaceAll("'", `'\\''`)}'`;
