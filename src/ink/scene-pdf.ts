import { pointsPath } from '../geometry/points-path.ts';
import { PAPER } from './colour.ts';
import { GlyphFonts } from './glyph-fonts.ts';
import { Ink } from './ink.ts';
import type { Scene } from './scene.ts';
import { wordsBox } from './words-box.ts';
import { POINTS_PER_MM, writeDocument, type DocumentFacts } from './write-document.ts';

/** The picture as a PDF of one page of its own size. The same scene gives the same bytes. */
export const scenePdf = async (scene: Scene, facts: Omit<DocumentFacts, 'title'>): Promise<Uint8Array> => {
  const fonts = new GlyphFonts();
  const ink = new Ink(fonts);
  const k = POINTS_PER_MM;
  ink.within({ a: k, b: 0, c: 0, d: -k, e: 0, f: scene.height * k }, () => drawMarks(ink, scene));
  const page = { width: scene.width, height: scene.height, content: ink.content };
  return writeDocument({ pages: [page], forms: [], fonts }, { ...facts, title: scene.title });
};

const drawMarks = (ink: Ink, { marks }: Scene): void => {
  for (const mark of marks) {
    if (mark.kind === 'stroke') ink.strokePath(mark.path, mark.style);
    else if (mark.kind === 'area') ink.fillPath(mark.path, mark.colour);
    else {
      if (mark.backed === true) ink.fillPath(pointsPath(wordsBox(mark), true), PAPER);
      ink.text(mark.text, mark.at, mark);
    }
  }
};
