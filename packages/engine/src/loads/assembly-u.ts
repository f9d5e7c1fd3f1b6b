/** One way through an assembly: its share of the area, and its layers' resistances with films, m²·K/W. */
export type HeatPath = { readonly share: number; readonly resistances: readonly number[] };

/**
 * U of a wood-framed assembly, W/(m²·K), by parallel paths (cavity and framing side by side); shares add to 1.
 * Not for steel framing. ASHRAE Handbook—Fundamentals 2021 ch. 27.
 */
export const parallelPathU = (paths: readonly HeatPath[]): number =>
  paths.reduce(
    (sum, { share, resistances }) => sum + share / resistances.reduce((total, layer) => total + layer, 0),
    0,
  );
