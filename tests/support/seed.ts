/**
 * Property tests run from one seed, so that a run can be repeated; `SEED=17 npm test` takes another. A failure prints its seed.
 */
import * as fc from 'fast-check';

const DEFAULT_SEED = 1;

fc.configureGlobal({ seed: Number(process.env['SEED'] ?? DEFAULT_SEED) });
