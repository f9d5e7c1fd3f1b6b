import type { Fitting } from '../survey/types.ts';

/** C of a fitting given as a length of straight duct: C = f·L/D (ASHRAE Handbook—Fundamentals 2021 ch. 21). */
export const coefficientOfLength = (
  length_m: number,
  frictionFactor: number,
  hydraulicDiameter_m: number,
): number => (frictionFactor * length_m) / hydraulicDiameter_m;

/** Length of straight duct with the loss of coefficient C: L = C·D/f, m. */
export const lengthOfCoefficient = (
  coefficient: number,
  frictionFactor: number,
  hydraulicDiameter_m: number,
): number => (coefficient * hydraulicDiameter_m) / frictionFactor;

/** Share of its open area that a shut blade or louvre still passes (common practice, no source). */
export const shutShare = 1e-3;

/** Contraction of the stream behind a blade; gives the handful of remembered butterfly values below. */
const bladeContraction = 0.7;

/**
 * C of a butterfly damper by how far it is open: 1 along the flow … 0 shut, proportional to the blade angle.
 * The stream contracts past the blade and widens again (Borda–Carnot): C = (1/(0.7·(1 − sin θ)) − 1)².
 * Gives 0.18, 3.5, 15 and 93 at 0, 30, 45 and 60°; from memory, measured dampers are at 0.2, 3–4, 10–19, 70–120.
 */
export function damperCoefficient(open: number): number {
  const angle = (1 - Math.min(1, Math.max(0, open))) * (Math.PI / 2);
  const free = Math.max(shutShare, 1 - Math.sin(angle));
  return (1 / (bladeContraction * free) - 1) ** 2;
}

/** How far a butterfly damper of loss coefficient C is open: the inverse of `damperCoefficient`, 1 … 0. */
export function damperOpening(coefficient: number): number {
  const free = 1 / (bladeContraction * (1 + Math.sqrt(coefficient)));
  return 1 - Math.asin(1 - Math.min(1, free)) / (Math.PI / 2);
}

/** Where along its part a fitting sits; the others are spread over the length. */
const nearKinds = new Set(['takeoff', 'tee', 'tee main', 'wye']);
const farKinds = new Set(['boot', 'return boot', 'entrance', 'end cap']);

/** Losses of the fittings of one part. */
export type FittingLosses = {
  /** Sums of C at the air-handler end, along the part, and at the far end. */
  readonly near: number;
  readonly along: number;
  readonly far: number;
};

/** Loss coefficients of a part's fittings on its own section, by place along it. */
export function fittingLosses(
  fittings: readonly Fitting[],
  frictionFactor: number,
  hydraulicDiameter_m: number,
): FittingLosses {
  const sums = { near: 0, along: 0, far: 0 };
  for (const fitting of fittings) {
    const one =
      (fitting.lossCoefficient ?? 0) +
      coefficientOfLength(fitting.equivalentLength_m ?? 0, frictionFactor, hydraulicDiameter_m);
    const place = nearKinds.has(fitting.kind) ? 'near' : farKinds.has(fitting.kind) ? 'far' : 'along';
    sums[place] += fitting.count * one;
  }
  return sums;
}
