/** Density of standard air at 20 °C and sea level, kg/m³, that blower-door flows are stated for. */
const standardDensity_kgm3 = 1.2041;

/**
 * Effective leakage area, cm², at 4 Pa and discharge coefficient 1, from the flow at 50 Pa (m³/s) and the exponent
 * (0.5–1) of the power law. ASHRAE Handbook—Fundamentals 2021 ch. 16.
 */
export const leakageArea_cm2 = (leakage50_m3s: number, exponent: number): number => {
  const flow4_m3s = leakage50_m3s * (4 / 50) ** exponent;
  return (flow4_m3s / Math.sqrt((2 * 4) / standardDensity_kgm3)) * 1e4;
};
