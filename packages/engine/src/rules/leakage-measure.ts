/**
 * Leakage at 25 Pa for each area of conditioned floor: how energy codes count.
 * It has another type than leakage for each area of duct surface, so that the two can not be mixed.
 */
export type LeakagePerFloorArea = { readonly per: 'conditioned floor area'; readonly flow25_m3sm2: number };

/** Leakage at 25 Pa for each area of duct surface: how leakage classes count. */
export type LeakagePerDuctSurface = { readonly per: 'duct surface'; readonly flow25_m3sm2: number };

/** Leakage flow at 25 Pa (m³/s) that a floor-area limit allows a floor (m²). */
export const allowedOnFloor = (limit: LeakagePerFloorArea, floorArea_m2: number): number =>
  limit.flow25_m3sm2 * floorArea_m2;

/** Leakage flow at 25 Pa (m³/s) that a duct-surface limit allows a duct surface (m²). */
export const allowedOnDucts = (limit: LeakagePerDuctSurface, surface_m2: number): number =>
  limit.flow25_m3sm2 * surface_m2;
