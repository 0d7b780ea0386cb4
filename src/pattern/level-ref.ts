/**
 * A level as a maker names it: `waist`, `waist+2in`, `top`, `bottom`.
 * `offset` is in millimetres, positive upwards; `text` is what was typed, for reports.
 */
export interface LevelRef {
  readonly name: string;
  readonly offset: number;
  readonly text: string;
}
