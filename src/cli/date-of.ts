import { StaywrightError } from '../errors.ts';

/** The one date that a document may bear: whole seconds since 1970, as builds that must come out the same are given it in SOURCE_DATE_EPOCH. */
export const dateOf = (): { date?: Date } => {
  const seconds = process.env['SOURCE_DATE_EPOCH'];
  if (seconds === undefined || seconds === '') return {};
  const date = new Date(Number(seconds) * 1000);
  if (/^\d+$/.test(seconds) && !Number.isNaN(date.getTime())) return { date };
  throw new StaywrightError('usage', `${seconds} is no whole number of seconds`, { where: 'SOURCE_DATE_EPOCH' });
};
