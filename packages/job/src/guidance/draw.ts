/** Standard normal distance of the 90 % point. */
export const ninety = 1.2815515655446004;

/** A standard normal number (Box and Muller 1958). */
export const normalFrom = (uniform: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
