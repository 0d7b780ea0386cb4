import { roundNumber } from '../geometry/round-path.ts';

/** A coordinate as sheets hold it: at most 3 decimals, never `-0`. */
export const formatNumber = (value: number): string => String(roundNumber(value));
