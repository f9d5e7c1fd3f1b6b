/**
 * Discharge coefficient of a sharp opening: door undercut, transfer grille, hole in a duct. It is the factor
 * 1.07 cfm/(in²·Pa^½) of Building Science Corporation, research report RR-0005 (2000), in SI.
 */
export const openingDischarge = 0.607;

/** The same as a loss coefficient on the free area. */
export const openingLossCoefficient = 1 / openingDischarge ** 2;

/** Flow through a sharp opening, m³/s, with the sign of the pressure difference. */
export const openingFlow_m3s = (area_m2: number, difference_Pa: number, density_kgm3: number): number =>
  Math.sign(difference_Pa) *
  openingDischarge *
  area_m2 *
  Math.sqrt((2 * Math.abs(difference_Pa)) / density_kgm3);

/** Free area that passes a flow at a pressure difference, m². Both > 0. */
export const openingArea_m2 = (flow_m3s: number, difference_Pa: number, density_kgm3: number): number =>
  flow_m3s / (openingDischarge * Math.sqrt((2 * difference_Pa) / density_kgm3));
