import { collect } from '../cli/collect.ts';

/** What is said of a body, by whichever command asks what it needs. */
export const BODY = ['--body <body>', 'FILE.json, or bust=36in,waist=14in:15in; repeatable', collect] as const;
export const REDUCTION = ['--reduction <lengths>', 'waist=2in: how much smaller when laced (0)', collect] as const;
export const GAP = ['--gap <lengths>', 'opening wanted: 2in, or waist=2in,hip=3in (2in)', collect] as const;
