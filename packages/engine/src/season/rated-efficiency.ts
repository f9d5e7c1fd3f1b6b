/**
 * Indoor fan of the rating procedure, W per W of rated output: 0.365 W/cfm at 400 cfm/ton (from memory of the US
 * procedure's value for coils rated without their fan).
 */
const ratedFan = (0.365 * 400) / 3516.85;

/**
 * COP of a single-speed cooling unit at 95 °F outdoors without its indoor fan, out of its SEER (Btu/Wh, 8 to 20):
 * EER = 1.12·SEER − 0.02·SEER² (from memory of the US Building America protocols), less the fan of the rating.
 */
export const coolingCop = (seer: number): number => {
  const eer = 1.12 * seer - 0.02 * seer * seer;
  return 1 / (3.412142 / eer - ratedFan);
};

/**
 * COP of a single-speed heat pump at 47 °F outdoors without its indoor fan, out of its HSPF (Btu/Wh, 6 to 11):
 * COP = 0.6239·HSPF − 0.0255·HSPF² (from memory of the same), less the fan of the rating and its heat.
 */
export const heatingCop = (hspf: number): number => {
  const cop = 0.6239 * hspf - 0.0255 * hspf * hspf;
  return (1 - ratedFan) / (1 / cop - ratedFan);
};
