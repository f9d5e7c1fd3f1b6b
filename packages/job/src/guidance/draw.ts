/** Standard normal distance of the 90 % point. */
export const ninety = 1.2815515655446004;

/** Uniform numbers in [0, 1) that a seed repeats (mulberry32, T. Ettinger 2017, public domain). */
export const seededUniform = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
};

/** A standard normal number (Box and Muller 1958). */
export const normalFrom = (uniform: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
