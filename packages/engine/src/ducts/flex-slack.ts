/**
 * Factor on the friction of flex that is not pulled straight:
 * 1 + 0.58·K·exp(−0.126·D[in]), K in % of the fully extended length
 * (ASHRAE Handbook—Fundamentals 2021 ch. 21, eq. 22–23; Abushakra et al. 2004, Culp 2011).
 * @param slack share of the fully extended length that is not used, 0 to 0.45
 */
export const flexSlackFactor = (slack: number, diameter_m: number): number =>
  1 + 58 * slack * Math.exp((-0.126 / 0.0254) * diameter_m);

/** Compression and diameters beyond which the factor is carried past its tests. */
const testedSlack = 0.3;
const testedFlexDiameters_m = [0.1524, 0.4064] as const;

/** True when the slack factor is used outside the range of its laboratory tests (6 to 16 in, up to 30 %). */
export const slackBeyondTests = (slack: number, diameter_m: number): boolean =>
  slack > testedSlack ||
  (slack > 0 &&
    (diameter_m < testedFlexDiameters_m[0] - 1e-3 || diameter_m > testedFlexDiameters_m[1] + 1e-3));
