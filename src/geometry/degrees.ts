/** An angle in degrees, as reports tell it; radians everywhere else. */
export const degreesOf = (radians: number): number => (radians * 180) / Math.PI;
