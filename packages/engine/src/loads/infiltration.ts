import factors from '../../data/load-factors.json' with { type: 'json' };
import type { House, Mode } from '../survey/types.ts';
import { leakageArea_cm2 } from './leakage-area.ts';

/** A flue larger than this share of the leakage area lies outside the formula. */
const largestFlueShare = 0.5;

/**
 * Infiltration driving force on the design day, L/s for each cm² of leakage area, for a suburban house of the given
 * conditioned height (m), temperature difference (K, taken without sign) and flue share of the leakage area (0–½).
 * ASHRAE Handbook—Fundamentals 2021 ch. 17; winds of 6.7 m/s in heating and 3.4 m/s in cooling are built in.
 */
export const drivingForce = (
  mode: Mode,
  height_m: number,
  difference_K: number,
  flueShare: number,
): number => {
  const { wind, stack, flue } = factors.infiltration[mode];
  return (
    (wind + height_m * Math.abs(difference_K) * (stack + flue * Math.min(flueShare, largestFlueShare))) / 1000
  );
};

/** Natural infiltration of the whole house on the design day, m³/s. Same source and limits as `drivingForce`. */
export const designInfiltration_m3s = (house: House, mode: Mode, difference_K: number): number => {
  const area_cm2 = leakageArea_cm2(house.leakage50_m3s, house.leakageExponent);
  if (!(area_cm2 > 0)) return 0;
  return (area_cm2 * drivingForce(mode, house.height_m, difference_K, house.flueArea_cm2 / area_cm2)) / 1000;
};

/**
 * Air that enters a house when fans move more one way than the other, m³/s, from natural infiltration and the
 * unbalanced flow: max(Q_u, Q_i + Q_u/2). ASHRAE Handbook—Fundamentals 2021 ch. 17, eq. 12–14.
 */
export const combinedInfiltration_m3s = (natural_m3s: number, unbalanced_m3s: number): number =>
  Math.max(unbalanced_m3s, natural_m3s + 0.5 * unbalanced_m3s);
