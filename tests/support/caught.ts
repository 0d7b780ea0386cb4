import { StaywrightError } from '../../src/errors.ts';

/** The error that a user would be shown; anything else that is thrown, or nothing, fails the test. */
export const caught = (action: () => unknown): StaywrightError => {
  try {
    action();
  } catch (error) {
    if (error instanceof StaywrightError) return error;
    throw error;
  }
  throw new Error('nothing was refused');
};
