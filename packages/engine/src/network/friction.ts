import type { FrictionLaw } from './types.ts';

/** Reynolds numbers below which flow is laminar and above which it is turbulent; a factor of Colebrook's equation. */
export const FRICTION = { LAMINAR: 2000, TURBULENT: 4000, TWO_OVER_LN10: 2 / Math.LN10 } as const;

const { LAMINAR, TURBULENT, TWO_OVER_LN10 } = FRICTION;

/**
 * Darcy friction factor.
 *
 * - Re ≤ 2000: 64/Re (Hagen–Poiseuille).
 * - Re ≥ 4000, 'colebrook': 1/√f = −2·log10(ε/3.7D + 2.51/(Re·√f)) (ASHRAE Handbook—Fundamentals 2021, ch. 21);
 *   'swamee-jain': f = 0.25/log10(ε/3.7D + 5.74/Re^0.9)² (Swamee & Jain 1976).
 * - between: with Colebrook f·Re² is the cubic that joins both ends with value and slope, so that pressure
 *   drops stay smooth and rising; with Swamee–Jain f is Dunlop's cubic (1991) as in EPANET.
 *
 * @param reynolds > 0, from the hydraulic diameter
 * @param relativeRoughness ε/Dh, 0 to about 0.05
 */
export function frictionFactor(
  reynolds: number,
  relativeRoughness: number,
  law: FrictionLaw = 'colebrook',
): number {
  if (reynolds <= LAMINAR) return 64 / reynolds;
  if (reynolds >= TURBULENT) {
    const x = inverseRoot(reynolds, relativeRoughness, law);
    return 1 / (x * x);
  }
  const [a, b, c, d] = blendCoefficients(relativeRoughness, law);
  const t = law === 'colebrook' ? reynolds / LAMINAR - 1 : reynolds / LAMINAR;
  const cubic = a + t * (b + t * (c + t * d));
  return law === 'colebrook' ? cubic / (reynolds * reynolds) : cubic;
}

/** x = 1/√f of turbulent flow. */
export function inverseRoot(reynolds: number, relativeRoughness: number, law: FrictionLaw): number {
  const rough = relativeRoughness / 3.7;
  if (law === 'swamee-jain') return -TWO_OVER_LN10 * Math.log(rough + 5.74 / reynolds ** 0.9);
  const slope = 2.51 / reynolds;
  let x = 6;
  // Newton rises to the root from below after the first step (the function is concave), so it can not miss.
  for (let i = 0; i < 20; i++) {
    const z = rough + slope * x;
    const step = (x + TWO_OVER_LN10 * Math.log(z)) / (1 + (TWO_OVER_LN10 * slope) / z);
    x -= step;
    if (Math.abs(step) < 1e-14 * x) break;
  }
  return x;
}

/**
 * Coefficients of the cubic between laminar and turbulent flow.
 * Colebrook: f·Re² in t = Re/2000 − 1, Hermite through (128 000, slope of 64·Re) and the turbulent end;
 * both end slopes are below three times the secant for ε/D ≤ 0.05, so it rises (Fritsch & Carlson 1980).
 * Swamee–Jain: f in Re/2000 (Dunlop 1991).
 */
export function blendCoefficients(
  relativeRoughness: number,
  law: FrictionLaw,
): [number, number, number, number] {
  const rough = relativeRoughness / 3.7;
  const x = inverseRoot(TURBULENT, relativeRoughness, law);
  const factor = 1 / (x * x);
  if (law === 'swamee-jain') {
    const smooth = 5.74 / TURBULENT ** 0.9;
    const z = rough + smooth;
    const slope = (2 + (1.8 * TWO_OVER_LN10 * smooth) / (z * -x)) * factor;
    return [
      7 * factor - slope,
      0.128 - 17 * factor + 2.5 * slope,
      -0.128 + 13 * factor - 2 * slope,
      0.032 - 3 * factor + 0.5 * slope,
    ];
  }
  const u = (TWO_OVER_LN10 * 2.51) / TURBULENT / (rough + (2.51 * x) / TURBULENT);
  const low = 64 * LAMINAR;
  const lowSlope = 64 * LAMINAR;
  const high = TURBULENT * TURBULENT * factor;
  const highSlope = ((2 * high * (1 - u / (1 + u))) / TURBULENT) * LAMINAR;
  return [
    low,
    lowSlope,
    3 * (high - low) - 2 * lowSlope - highSlope,
    lowSlope + highSlope - 2 * (high - low),
  ];
}
