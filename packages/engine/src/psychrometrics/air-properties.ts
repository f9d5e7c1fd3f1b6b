/**
 * Standard atmospheric pressure, Pa, at an elevation of −5000 to 11 000 m.
 * ASHRAE Handbook—Fundamentals ch. 1, standard atmosphere.
 */
export const standardPressure_Pa = (elevation_m: number): number =>
  101325 * (1 - 2.25577e-5 * elevation_m) ** 5.2559;

/**
 * Density of moist air, kg/m³ of mixture, for humidity ratio in kg per kg of dry air.
 * Ideal gas: ASHRAE Handbook—Fundamentals ch. 1, eq. for specific volume.
 */
export const moistAirDensity = (temperature_C: number, humidityRatio: number, pressure_Pa: number): number =>
  ((1 + humidityRatio) * pressure_Pa) / (287.042 * (temperature_C + 273.15) * (1 + 1.607858 * humidityRatio));

/**
 * Kinematic viscosity of air, m²/s, −70 to 1200 °C, at the given density in kg/m³.
 * Sutherland's formula (constants from memory; within 0.3 % of tables at room temperature).
 */
export const kinematicViscosity = (temperature_C: number, density_kgm3: number): number => {
  const absolute_K = temperature_C + 273.15;
  return (1.458e-6 * absolute_K ** 1.5) / (absolute_K + 110.4) / density_kgm3;
};

/**
 * Specific heat of moist air at constant pressure, J/(kg·K), per kg of dry air.
 * ASHRAE Handbook—Fundamentals ch. 1, slope of the enthalpy equation.
 */
export const specificHeat = (humidityRatio: number): number => 1006 + 1860 * humidityRatio;
