import type { Change } from './change.ts';

/** A change's number in its chain: the one it bears, or, from before changes were numbered, its place in the record, from 1. */
export const stepOf = ({ step }: Change, place: number): number => step ?? place + 1;

/** The number that the next change will bear. */
export const nextStep = (record: readonly Change[]): number =>
  1 + record.map(stepOf).reduce((most, step) => Math.max(most, step), 0);
