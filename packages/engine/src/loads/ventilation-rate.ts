/**
 * Whole-house ventilation that ASHRAE 62.2 asks for, m³/s, from conditioned floor area (m²) and bedrooms:
 * 0.15 L/s per m² and 3.5 L/s per person. ASHRAE Handbook—Fundamentals 2021 ch. 17.
 */
export const ventilationRate_m3s = (floorArea_m2: number, bedrooms: number): number =>
  (0.15 * floorArea_m2 + 3.5 * (bedrooms + 1)) / 1000;
