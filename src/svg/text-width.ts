/** Width of a letter as a share of its size, for setting text without reading a font: Latin and its kin, and square letters. */
const [LETTER_WIDTH, SQUARE_WIDTH, FIRST_SQUARE] = [0.65, 1, '\u1100'] as const;

/** About how long a text is, in the unit of its size. */
export const textWidth = (text: string, size: number): number =>
  [...text].reduce((sum, letter) => sum + (letter < FIRST_SQUARE ? LETTER_WIDTH : SQUARE_WIDTH) * size, 0);
