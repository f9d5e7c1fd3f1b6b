import { normalShare } from '../numerics/normal-share.ts';
import type { Calibration, Totals } from './calibration.ts';

/** Totals that limits are set for. */
export type LimitedTotal = keyof Totals;

/**
 * Probability that a total of the calibrated house is not above a limit, m³/s: the share of draws that pass; without
 * draws, by a log-normal through the total's range.
 * @throws RangeError for a total that the house does not have
 */
export function probabilityPasses(calibration: Calibration, total: LimitedTotal, limit_m3s: number): number {
  const range = calibration.totals[total];
  if (!range) throw new RangeError(`the house has no ${total}`);
  const drawn = calibration.drawnTotals[total];
  if (drawn && drawn.length > 0)
    return drawn.reduce((count, value) => count + +(value <= limit_m3s), 0) / drawn.length;
  const spread = Math.log(range.high / range.low) / (2 * 1.645);
  return spread > 0 ? normalShare(Math.log(limit_m3s / range.middle) / spread) : +(range.middle <= limit_m3s);
}
