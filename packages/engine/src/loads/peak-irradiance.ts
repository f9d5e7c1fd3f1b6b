/** Clear-sky irradiance in W/m² on one surface. */
export type Irradiance = { readonly total: number; readonly diffuse: number; readonly beam: number };

/** The regressions were made for these latitudes, °N; outside them the nearest is used. */
const bounded = (latitude_deg: number): number => Math.min(60, Math.max(20, latitude_deg));

const split = (total: number, diffuse: number): Irradiance => ({ total, diffuse, beam: total - diffuse });

/** Angle from north, 0 to 180°, of a direction in degrees clockwise from north. */
const fromNorth = (facing_deg: number): number => {
  const turned = ((facing_deg % 360) + 360) % 360;
  return Math.min(turned, 360 - turned);
};

/**
 * Peak irradiance of a July day on a vertical surface that faces `facing_deg` (clockwise from north), or on a
 * horizontal one when it is absent. Latitude 20–60 °N.
 * ASHRAE Handbook—Fundamentals 2021 ch. 17, with the exposure counted from north and φ squared in the diffuse
 * term, as its own table of values requires.
 */
export const peakIrradiance = (latitude_deg: number, facing_deg?: number): Irradiance => {
  const latitude = bounded(latitude_deg);
  if (facing_deg === undefined) {
    const total = 816.2 + 10.2 * latitude - 0.1806 * latitude ** 2;
    return split(total, Math.min(total, 170));
  }
  const phi = fromNorth(facing_deg) / 180;
  const total =
    423.5 +
    1240 * phi -
    5143 * phi ** 3 +
    3191 * phi ** 4 +
    35.25 * phi * latitude +
    0.1427 * phi * latitude ** 2 -
    12.89 * latitude -
    0.6172 * latitude ** 2 +
    (0.7802 * latitude ** 2) / (phi + 1);
  const diffuse = 356.3 - 37.73 * phi ** 2 + 0.3022 * phi * latitude - (115.9 * latitude ** 0.25) / (phi + 1);
  return split(total, Math.min(total, diffuse));
};

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const julyDeclination = radians(20.44);
/** Solar time of the hottest hour; of the two hottest the later, because an attic lags. */
const designHour = 15;

const sineOfAltitude = (latitude: number, hour: number): number =>
  Math.cos(latitude) * Math.cos(julyDeclination) * Math.cos(radians(15 * (hour - 12))) +
  Math.sin(latitude) * Math.sin(julyDeclination);

/**
 * Irradiance on a horizontal surface at the hottest hour of a July day, W/m²: the noon peak of `peakIrradiance`
 * in proportion to the sine of the sun's altitude at 15 h solar time. ASHRAE Handbook—Fundamentals 2021 ch. 14
 * for the sun's position; the proportion is our own and neglects the longer path through the air (about 3 %).
 */
export const designHourHorizontal_Wm2 = (latitude_deg: number): number => {
  const latitude = radians(bounded(latitude_deg));
  const share = sineOfAltitude(latitude, designHour) / sineOfAltitude(latitude, 12);
  return peakIrradiance(latitude_deg).total * share;
};
