const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  '\t': '&#9;',
  '\n': '&#10;',
  '\r': '&#13;',
};

/** Characters that no XML document may hold: controls, halves of surrogate pairs, two non-characters. */
// oxlint-disable-next-line no-control-regex
const FORBIDDEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu;

/** Text as it may stand in an attribute or between tags; what XML cannot hold becomes U+FFFD. */
export const escapeXml = (text: string): string =>
  text.replace(FORBIDDEN, '\ufffd').replace(/[&<>"\t\n\r]/g, (character) => ESCAPES[character]!);
