import { ninetiethPercentile } from '@airledger/engine/numerics/normal-share';
/** A value with the range that was typed for it, about 10 and 90 %. */
export type Typed = { readonly value: number; readonly low: number; readonly high: number };

/**
 * Draws from a range: normal, with its own spread on either side, so that a tenth lies beyond each end.
 * A range that does not reach below zero never gives a negative value.
 */
export const drawFrom = ({ value, low, high }: Typed, uniform: () => number): number => {
  const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
  const normal = radius * Math.cos(2 * Math.PI * uniform());
  const drawn = value + (normal / ninetiethPercentile) * (normal > 0 ? high - value : value - low);
  return low >= 0 ? Math.max(0, drawn) : drawn;
};
