import { StaywrightError } from '../errors.ts';

/** The path that an option gives, which must end as its kind of file does; a refusal names one that would. */
export const withEnding = (path: string, ending: '.svg' | '.pdf' | '.png' | '.sh', option: string): string => {
  if (path.toLowerCase().endsWith(ending)) return path;
  const pdf = option === '-o' && ending === '.svg' && path.toLowerCase().endsWith('.pdf');
  const stem = path === '' || path.endsWith('/') ? `${path}pattern` : path.replace(/\.\w+$/, '');
  const hint = pdf ? `write pages with --pdf ${path}` : `name it ${stem}${ending}`;
  throw new StaywrightError('usage', `${path || 'no name'} does not end in ${ending}`, { where: option, hint });
};
