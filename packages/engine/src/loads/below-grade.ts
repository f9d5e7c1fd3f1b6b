/** Conductivity of the ground in the design formulas, W/(m·K). */
const ground_WmK = 1.4;
/** Bare concrete with its inside film, m²·K/W: added to any insulation. */
const bareResistance = 0.259;

/**
 * Mean U of the part of a basement wall from `top_m` to `bottom_m` below grade, W/(m²·K), with `insulation` in m²·K/W
 * beyond bare concrete. Walls insulated in part are the area mean of their pieces.
 * ASHRAE Handbook—Fundamentals 2021 ch. 18, eq. 38.
 */
export const belowGradeWallU = (top_m: number, bottom_m: number, insulation: number): number => {
  const reach_m = (2 * ground_WmK * (bareResistance + insulation)) / Math.PI;
  return (
    ((2 * ground_WmK) / (Math.PI * (bottom_m - top_m))) * Math.log((bottom_m + reach_m) / (top_m + reach_m))
  );
};

/**
 * Mean U of a basement floor `depth_m` below grade whose shorter side is `width_m`, W/(m²·K), with `insulation` in
 * m²·K/W beyond bare concrete. ASHRAE Handbook—Fundamentals 2021 ch. 18, eq. 39.
 */
export const belowGradeFloorU = (width_m: number, depth_m: number, insulation: number): number => {
  const reach_m = (ground_WmK * (bareResistance + insulation)) / Math.PI;
  return (
    ((2 * ground_WmK) / (Math.PI * width_m)) *
    Math.log((width_m / 2 + depth_m / 2 + reach_m) / (depth_m / 2 + reach_m))
  );
};
