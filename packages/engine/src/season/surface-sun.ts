import type { WeatherYear } from '../climate/read-weather-file.ts';
import type { Surface } from '../survey/types.ts';
import { type SunPath, sunPath } from './sun-position.ts';

/** Grass and the like. ASHRAE Handbook—Fundamentals 2021 ch. 14. */
const groundReflectance = 0.2;
/** SHGC(θ) = SHGC·[1 − b·(1/cosθ − 1)] with b of clear double glass, and the diffuse SHGC over the normal one (from memory). */
const angleFactor = 0.1;
const diffuseShare = 0.88;
/** The sun's disc at the horizon would divide by nought. */
const leastSine = 0.01;

const series = new WeakMap<WeatherYear, Map<string, Float64Array>>();

/** A series of a year under a name, made once. */
const remembered = (year: WeatherYear, key: string, make: () => Float64Array): Float64Array => {
  let ofYear = series.get(year);
  if (!ofYear) {
    ofYear = new Map();
    series.set(year, ofYear);
  }
  let found = ofYear.get(key);
  if (!found) {
    found = make();
    ofYear.set(key, found);
  }
  return found;
};

const cosineOn = (path: SunPath, i: number, facing_deg: number | undefined): number => {
  const sine = path.sine[i]!;
  if (sine <= leastSine) return 0;
  if (facing_deg === undefined) return sine;
  const facing_rad = ((facing_deg - 180) * Math.PI) / 180;
  return Math.max(0, Math.sqrt(1 - sine * sine) * Math.cos(path.azimuth_rad[i]! - facing_rad));
};

/** Diffuse of an even sky and of the ground: half of each on a wall, all of the sky on a roof. */
const diffuseOn = (year: WeatherYear, i: number, facing_deg: number | undefined): number =>
  facing_deg === undefined
    ? year.diffuse_Wm2[i]!
    : 0.5 * (year.diffuse_Wm2[i]! + groundReflectance * year.global_Wm2[i]!);

/**
 * Irradiance through a year, W/m², on a wall that faces `facing_deg` clockwise from north, or on a horizontal surface
 * when absent; without beam when `shaded`. Isotropic sky: ASHRAE Handbook—Fundamentals 2021 ch. 14.
 */
export const irradianceOn = (
  year: WeatherYear,
  facing_deg: number | undefined,
  shaded: boolean,
): Float64Array =>
  remembered(year, `wall/${facing_deg}/${shaded}`, () => {
    const path = sunPath(year);
    return year.global_Wm2.map((_, i) => {
      const beam = shaded ? 0 : year.direct_Wm2[i]! * cosineOn(path, i, facing_deg);
      return beam + diffuseOn(year, i, facing_deg);
    });
  });

/** Share of a window in the shade of a wide overhang. ASHRAE Handbook—Fundamentals 2021 ch. 15: S = D·tanβ/cosγ. */
export const overhangShade = (
  sine: number,
  cosineToFacing: number,
  depth_m: number,
  above_m: number,
  height_m: number,
): number => {
  if (depth_m <= 0 || cosineToFacing <= 0) return 0;
  const shadow_m = (depth_m * sine) / Math.sqrt(1 - sine * sine) / cosineToFacing;
  return Math.min(1, Math.max(0, (shadow_m - above_m) / height_m));
};

/**
 * What passes a window through a year as irradiance at normal incidence would, W/m²: beam by its angle and overhang,
 * diffuse by the diffuse gain. Times area, SHGC, drapes and screen it is the gain.
 */
export const throughWindow = (year: WeatherYear, { facing_deg, glass, shaded }: Surface): Float64Array => {
  const depth = glass?.overhangDepth_m ?? 0;
  const above = glass?.overhangAbove_m ?? 0;
  const height = glass?.height_m ?? 1;
  return remembered(year, `glass/${facing_deg}/${shaded}/${depth}/${above}/${height}`, () => {
    const path = sunPath(year);
    return year.global_Wm2.map((_, i) => {
      const diffuse = diffuseShare * diffuseOn(year, i, facing_deg);
      const cosine = shaded ? 0 : cosineOn(path, i, facing_deg);
      if (cosine === 0) return diffuse;
      const sine = path.sine[i]!;
      const shade =
        facing_deg === undefined
          ? 0
          : overhangShade(sine, cosine / Math.sqrt(1 - sine * sine), depth, above, height);
      const passes = Math.max(0, 1 - angleFactor * (1 / cosine - 1));
      return diffuse + year.direct_Wm2[i]! * cosine * passes * (1 - shade);
    });
  });
};
