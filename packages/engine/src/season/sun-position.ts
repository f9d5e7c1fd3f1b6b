import type { WeatherYear } from '../climate/read-weather-file.ts';

/** Where the sun stands in the middle of each hour of a year. */
export type SunPath = {
  /** Sine of its altitude; negative at night. */
  readonly sine: Float64Array;
  /** Azimuth from south, west positive, rad. */
  readonly azimuth_rad: Float64Array;
  /** Irradiance outside the atmosphere, square to the sun, W/m². */
  readonly extraterrestrial_Wm2: Float64Array;
};

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const daysBefore = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];

/** Day of the year, 1 to 365, of a date without leap days. */
export const dayOfYear = (month: number, day: number): number => daysBefore[month - 1]! + day;

/** Equation of time, min, on a day of the year. ASHRAE Handbook—Fundamentals 2021 ch. 14. */
export const equationOfTime_min = (day: number): number => {
  const gamma = radians((360 * (day - 1)) / 365);
  return (
    2.2918 *
    (0.0075 +
      0.1868 * Math.cos(gamma) -
      3.2077 * Math.sin(gamma) -
      1.4615 * Math.cos(2 * gamma) -
      4.089 * Math.sin(2 * gamma))
  );
};

/** Declination of the sun, rad, on a day of the year. ASHRAE Handbook—Fundamentals 2021 ch. 14. */
export const declination_rad = (day: number): number =>
  radians(23.45 * Math.sin(radians((360 * (day + 284)) / 365)));

/** Normal irradiance outside the atmosphere, W/m². ASHRAE Handbook—Fundamentals 2021 ch. 14. */
export const extraterrestrial_Wm2 = (day: number): number =>
  1367 * (1 + 0.033 * Math.cos(radians((360 * (day - 3)) / 365)));

/** Sine of altitude, and azimuth from south (west positive, rad), at a local standard time in hours. Same source; within 1°. */
export const sunAt = (
  place: { readonly latitude_deg: number; readonly longitude_deg: number; readonly timeZone_h: number },
  day: number,
  standardTime_h: number,
): { readonly sine: number; readonly azimuth_rad: number } => {
  const solarTime =
    standardTime_h + equationOfTime_min(day) / 60 + (place.longitude_deg - 15 * place.timeZone_h) / 15;
  const hourAngle = radians(15 * (solarTime - 12));
  const latitude = radians(place.latitude_deg);
  const declination = declination_rad(day);
  return {
    sine:
      Math.cos(latitude) * Math.cos(declination) * Math.cos(hourAngle) +
      Math.sin(latitude) * Math.sin(declination),
    azimuth_rad: Math.atan2(
      Math.sin(hourAngle) * Math.cos(declination),
      Math.cos(hourAngle) * Math.cos(declination) * Math.sin(latitude) -
        Math.sin(declination) * Math.cos(latitude),
    ),
  };
};

const paths = new WeakMap<WeatherYear, SunPath>();

/** The sun's path through a year, remembered for each year. Rows end at their stamp, so the sun stands at the half hour before. */
export const sunPath = (year: WeatherYear): SunPath => {
  const known = paths.get(year);
  if (known) return known;
  const count = year.dryBulb_C.length;
  const path = {
    sine: new Float64Array(count),
    azimuth_rad: new Float64Array(count),
    extraterrestrial_Wm2: new Float64Array(count),
  };
  for (let i = 0; i < count; i++) {
    const day = dayOfYear(year.month[i]!, year.day[i]!);
    const { sine, azimuth_rad } = sunAt(year, day, year.hour[i]! + 0.5);
    path.sine[i] = sine;
    path.azimuth_rad[i] = azimuth_rad;
    path.extraterrestrial_Wm2[i] = extraterrestrial_Wm2(day);
  }
  paths.set(year, path);
  return path;
};
