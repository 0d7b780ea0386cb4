import known from '../../shared/known-levels.json' with { type: 'json' };

/** Level names that a drawing may use without being told, from the highest down. */
export const KNOWN_LEVELS: readonly string[] = known.levels;
