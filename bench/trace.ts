/**
 * Tracing scans: how true, beside general tracers on the same pictures in one run; and how fast, by the real executable on A3 sheets.
 */
import { measureAccuracy } from './trace/accuracy.ts';
import { measureSpeed } from './trace/speed.ts';

await measureSpeed();
await measureAccuracy();
