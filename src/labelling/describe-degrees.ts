/** An angle without its sign, as a message shows it: `1.25 degrees`. */
export const describeDegrees = (radians: number): string =>
  `${((Math.abs(radians) * 180) / Math.PI).toFixed(2)} degrees`;
