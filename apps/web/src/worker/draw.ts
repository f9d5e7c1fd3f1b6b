/** A value with the range that was typed for it, about 10 and 90 %. */
export type Typed = { readonly value: number; readonly low: number; readonly high: number };

/** Standard normal distance of the 90 % point. */
const ninety = 1.2815515655446004;

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

/**
 * Draws from a range: normal, with its own spread on either side, so that a tenth lies beyond each end.
 * A range that does not reach below zero never gives a negative value.
 */
export const drawFrom = ({ value, low, high }: Typed, uniform: () => number): number => {
  const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
  const normal = radius * Math.cos(2 * Math.PI * uniform());
  const drawn = value + (normal / ninety) * (normal > 0 ? high - value : value - low);
  return low >= 0 ? Math.max(0, drawn) : drawn;
};
