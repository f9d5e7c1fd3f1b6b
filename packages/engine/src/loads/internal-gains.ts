import factors from '../../data/load-factors.json' with { type: 'json' };

/**
 * Gains of people and appliances in the cooling design hour, W, for a conditioned floor area (m²) and number of
 * bedrooms (one person more than bedrooms). ASHRAE Handbook—Fundamentals 2021 ch. 17.
 */
export const internalGains = (
  floorArea_m2: number,
  bedrooms: number,
): { readonly sensible_W: number; readonly latent_W: number } => {
  const gain = (part: (typeof factors.internal)['sensible']): number =>
    part.house_W + part.floor_Wm2 * floorArea_m2 + part.person_W * (bedrooms + 1);
  return { sensible_W: gain(factors.internal.sensible), latent_W: gain(factors.internal.latent) };
};
