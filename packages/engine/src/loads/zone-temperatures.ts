import type { ZoneTerms } from './zone-terms.ts';

/** Fixed temperatures around the zones, °C, and the specific heat of their ventilation air, J/(kg·K). */
export type ZoneSurroundings = {
  readonly outdoor_C: number;
  readonly ground_C: number;
  /** One temperature for all rooms. */
  readonly rooms_C: number;
  readonly specificHeat_JkgK: number;
};

/**
 * Steady temperature of each zone, °C: the mean of all it touches, weighted by conductance, plus gains over their sum.
 * Zones that touch each other are solved together. A zone that touches nothing is as warm as outdoors.
 * @param gains_W further heat set free in a zone (ducts), by zone id.
 * ASHRAE Handbook—Fundamentals 2021 ch. 17, eq. 5.
 */
export const zoneTemperatures = (
  terms: Readonly<Record<string, ZoneTerms>>,
  around: ZoneSurroundings,
  gains_W: Readonly<Record<string, number>> = {},
): Record<string, number> => {
  const ids = Object.keys(terms);
  const temperatures = Object.fromEntries(ids.map((id) => [id, around.outdoor_C]));
  const fixed = (to: string): number =>
    to === 'outdoors' ? around.outdoor_C : to === 'ground' ? around.ground_C : around.rooms_C;
  const sweep = (id: string): number => {
    const { exchanges, ventilation_kgs, sunGain_W } = terms[id]!;
    let conductance = ventilation_kgs * around.specificHeat_JkgK;
    let heat = conductance * around.outdoor_C + sunGain_W + (gains_W[id] ?? 0);
    for (const { to, conductance_WK } of exchanges) {
      conductance += conductance_WK;
      heat += conductance_WK * (temperatures[to] ?? fixed(to));
    }
    return conductance > 0 ? heat / conductance : around.outdoor_C;
  };
  // The balances are diagonally dominant, so setting each in turn closes in on the joint answer.
  for (let round = 0; round < 10_000; round++) {
    let moved_K = 0;
    for (const id of ids) {
      const temperature_C = sweep(id);
      moved_K = Math.max(moved_K, Math.abs(temperature_C - temperatures[id]!));
      temperatures[id] = temperature_C;
    }
    if (moved_K < 1e-10) break;
  }
  return temperatures;
};
