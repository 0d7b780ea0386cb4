/** What stands in a word as it is, what stands between quotes, and one letter behind a backslash. */
const PART = /'([^']*)'|\\([^\n])|([^\s|&;<>()$`"'\\*?[\]#~{}!]+)/y;

/**
 * The words of one plain command, as a POSIX shell reads them: the inverse of quoting each word and joining them by spaces. Undefined where
 * the text is anything more than words, as where a quote stays open or a `;`, `$`, `*` or line end stands outside quotes.
 */
export const shellWords = (text: string): string[] | undefined => {
  const words: string[] = [];
  for (let at = 0; at < text.length;) {
    if (text[at] === ' ') {
      at += 1;
      continue;
    }
    let word = '';
    while (at < text.length && text[at] !== ' ') {
      PART.lastIndex = at;
      const part = PART.exec(text);
      if (part === null) return undefined;
      word += part[1] ?? part[2] ?? part[3]!;
      at = PART.lastIndex;
    }
    words.push(word);
  }
  return words;
};
