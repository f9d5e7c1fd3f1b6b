import coefficients from '../../data/infiltration-coefficients.json' with { type: 'json' };
import type { House } from '../survey/types.ts';

/** How sheltered a house stands: 1 open ground … 5 hemmed in on all sides. */
export type ShelterClass = 1 | 2 | 3 | 4 | 5;

/** What decides natural infiltration in an hour. */
export type InfiltrationSetting = {
  readonly storeys: number;
  readonly shelter: ShelterClass;
  readonly flue: boolean;
  readonly foundation: 'basement or slab' | 'crawlspace';
};

/**
 * Natural infiltration, m³/s, of a house with the power law Q = coefficient·ΔPⁿ (m³/(s·Paⁿ)), from the indoor–outdoor
 * temperature difference (K, taken without sign) and the wind at the weather station (m/s).
 * For any hour of a year; houses of 1 to 3 storeys. Within about 10 % when its inputs are good.
 * Enhanced model (Walker and Wilson 1998), ASHRAE Handbook—Fundamentals 2021 ch. 16.
 */
export const hourlyInfiltration_m3s = (
  coefficient: number,
  exponent: number,
  setting: InfiltrationSetting,
  difference_K: number,
  wind_ms: number,
): number => {
  const storey = Math.min(3, Math.max(1, Math.round(setting.storeys))) - 1;
  const part = setting.flue ? coefficients.flue : coefficients.noFlue;
  const wind = setting.foundation === 'crawlspace' ? part.crawlspaceWind : part.slabWind;
  const shelter = part.shelter[storey]![setting.shelter - 1]!;
  const byStack = coefficient * part.stack[storey]! * Math.abs(difference_K) ** exponent;
  const byWind =
    coefficient *
    wind[storey]! *
    (shelter * coefficients.windSpeedMultiplier.byStoreys[storey]! * wind_ms) ** (2 * exponent);
  return Math.hypot(byStack, byWind);
};

/** Power-law coefficient of a house, m³/(s·Paⁿ), from its leakage at 50 Pa. */
export const leakageCoefficient = (house: Pick<House, 'leakage50_m3s' | 'leakageExponent'>): number =>
  house.leakage50_m3s / 50 ** house.leakageExponent;
