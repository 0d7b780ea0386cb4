/** Text and blocks for a page of the manual, in the man macros. */

const SPECIAL: Readonly<Record<string, string>> = {
  '\\': String.raw`\e`,
  '-': String.raw`\-`,
  "'": String.raw`\(aq`,
  '`': String.raw`\(ga`,
  '^': String.raw`\(ha`,
  '~': String.raw`\(ti`,
};

/** Text that prints as it stands, whatever it begins with; characters beyond ASCII by their code. */
export const escapeRoff = (text: string): string => {
  const safe = text.replaceAll(/[\\'`^~-]/g, (character) => SPECIAL[character]!);
  const ascii = safe.replaceAll(
    // oxlint-disable-next-line no-control-regex
    /[^\u0000-\u007f]/gu,
    (character) => String.raw`\[u${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}]`,
  );
  return ascii.replaceAll(/^\./gm, String.raw`\&.`);
};

export const bold = (text: string): string => String.raw`\fB${escapeRoff(text)}\fR`;

export const italic = (text: string): string => String.raw`\fI${escapeRoff(text)}\fR`;

/** A paragraph of text that is already escaped. */
export const paragraph = (text: string): string => `.PP\n${text}`;

/** Something with what it means beside it, both already escaped. */
export const entry = (tag: string, says: string): string => `.TP\n${tag}\n${says}`;

/** Lines that are printed as they stand. */
export const verbatim = (text: string): string => `.PP\n.nf\n${escapeRoff(text)}\n.fi`;
