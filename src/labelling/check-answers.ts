import { StaywrightError } from '../errors.ts';
import { suggestName } from '../pattern/suggest.ts';
import type { LabelAnswers } from './label-answers.ts';

/** What a panel, seam or level may be called: it becomes an id, a file name and a word on the command line. */
const NAME = /^[\p{L}\p{N}_][\p{L}\p{M}\p{N}_.-]*$/u;

/** Whether a panel, seam or level may be called so. */
export const isName = (text: string): boolean => NAME.test(text);

/** Names of edges that no seam may have. */
const EDGES: ReadonlySet<string> = new Set(['top', 'bottom']);

/** Refuses answers that contradict each other, before any line is looked at. */
export const checkAnswers = (answers: LabelAnswers): void => {
  const { panels, seams, levels } = answers;
  if (panels.length === 0) throw new StaywrightError('usage', 'no panel names', { where: '--panels' });
  checkNames(panels, '--panels');
  checkNames(seams, '--seams');
  checkNames(
    levels.map((level) => level.name),
    '--level',
  );
  checkSeamCount(panels, seams);
  checkRepeats(panels, '--panels');
  const ring = answers.pieces === 'single' && seams.length > 2 && seams[0] === seams.at(-1);
  checkRepeats(ring ? seams.slice(1) : seams, '--seams');
  checkRepeats(
    levels.map((level) => level.name),
    '--level',
  );
  const edge = seams.find((seam) => EDGES.has(seam));
  if (edge !== undefined) {
    const hint = 'top and bottom are the edges that no seam joins';
    throw new StaywrightError('usage', `no seam can be called '${edge}'`, { where: '--seams', hint });
  }
  const level = levels.find(({ name }) => EDGES.has(name));
  if (level !== undefined) {
    const hint = `${level.name} already means that edge of each panel`;
    throw new StaywrightError('usage', `no level can be called '${level.name}'`, { where: '--level', hint });
  }
  checkPanelsNamed(answers.flip, panels, '--flip');
  checkPanelsNamed(Object.keys(answers.turn), panels, '--turn');
  checkPanelsNamed(
    answers.corners.map((corner) => corner.panel),
    panels,
    '--corner',
  );
  for (const answer of levels) {
    if ('down' in answer) checkPanelsNamed(Object.keys(answer.down), panels, `--level ${answer.name}`);
  }
  if (answers.pieces === 'single' && answers.centreFront === 'right') {
    throw new StaywrightError('usage', 'separate left and right panels keep the side on which they lie', {
      where: '--cf right',
      hint: 'leave it out, and name panels and seams from left to right',
    });
  }
};

const checkNames = (names: readonly string[], where: string): void => {
  const bad = names.find((name) => !isName(name));
  if (bad !== undefined) {
    const hint = 'a name is one word of letters, digits, - _ or .';
    throw new StaywrightError('usage', `'${bad}' cannot be a name`, { where, hint });
  }
};

const checkRepeats = (names: readonly string[], where: string): void => {
  const twice = names.find((name, at) => names.indexOf(name) !== at);
  if (twice !== undefined) throw new StaywrightError('usage', `'${twice}' is named twice`, { where });
};

const checkSeamCount = (panels: readonly string[], seams: readonly string[]): void => {
  if (seams.length === panels.length + 1) return;
  const message = `${panels.length} panels (${panels.join(', ')}) take ${panels.length + 1} seam names, not ${seams.length} (${seams.join(', ')})`;
  const hint = 'name the seams from centre front to centre back, the opening or fold at each end included';
  throw new StaywrightError('usage', message, { where: '--seams', hint });
};

const checkPanelsNamed = (typed: readonly string[], panels: readonly string[], where: string): void => {
  const unknown = typed.find((name) => !panels.includes(name));
  if (unknown !== undefined) {
    throw new StaywrightError('usage', `no panel is called '${unknown}'`, {
      where,
      hint: suggestName(unknown, panels),
    });
  }
};
