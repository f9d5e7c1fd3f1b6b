import { leakDensityFactor, standardDensity_kgm3 } from '../ducts/leakage-law.ts';
import type { FanLaw, LeakLaw, PowerLaw } from '../network/types.ts';
import {
  kinematicViscosity,
  moistAirDensity,
  standardPressure_Pa,
} from '../psychrometrics/air-properties.ts';
import type { AirSystem, Mode, PressureDrop, Survey } from '../survey/types.ts';

/**
 * How thin and thick air share one network. Nodes must conserve mass, so every flow is the mass flow of dry air
 * over one reference density ρ₀ (indoor air at the site's elevation). Air of density ρ then really moves at
 * Q·ρ₀/ρ, and a dynamic loss becomes C·½ρ·(Q·ρ₀/ρ)²/A² = C·½(ρ₀²/ρ)·(Q/A)²: for the same mass every drop goes as
 * 1/ρ. That holds for filters and leaks too: a drop ∝ ρ^(m−1)·(true flow)^m is ∝ (1/ρ)·Q^m for any m. So each
 * element only states its own density, and what was tested in standard air is brought to ρ₀ here.
 */
export type AirState = {
  readonly reference_kgm3: number;
  readonly kinematicViscosity_m2s: number;
};

/** Temperatures of the air in one system's ducts, for its density only. */
export type SystemConditions = {
  readonly supplyTemperature_C: number;
  readonly returnTemperature_C: number;
};

/** Conditions by system id. */
export type AirConditions = Readonly<Record<string, SystemConditions>>;

/** Density of dry air at the site, kg/m³: volume flows at it count kilograms of dry air, as enthalpies do. */
export const siteDensity = (survey: Survey, temperature_C: number): number =>
  moistAirDensity(temperature_C, 0, standardPressure_Pa(survey.site.elevation_m));

/** Air that volume flows refer to: dry air at the set point of the rooms and the elevation of the site, with its viscosity. */
export function referenceAir(survey: Survey, mode: Mode): AirState {
  const temperature_C = survey.indoor[`${mode}_C`];
  const reference_kgm3 = siteDensity(survey, temperature_C);
  return { reference_kgm3, kinematicViscosity_m2s: kinematicViscosity(temperature_C, reference_kgm3) };
}

/** Conditions before anything is known of the heat: all ducts at room temperature. */
export function roomTemperatureConditions(survey: Survey, mode: Mode): AirConditions {
  const temperature_C = survey.indoor[`${mode}_C`];
  const same = { supplyTemperature_C: temperature_C, returnTemperature_C: temperature_C };
  return Object.fromEntries(survey.systems.map((system) => [system.id, same]));
}

/**
 * Filter or coil, Δp = drop·(Q/flow)^m rated in standard air: between a viscous medium (m = 1, Δp does not
 * depend on ρ at the same true flow) and a dynamic loss (m = 2, Δp ∝ ρ) it goes as ρ^(m−1).
 */
export const pressureDropLaw = (drop: PressureDrop, air: AirState): PowerLaw => ({
  kind: 'power',
  resistance:
    (drop.drop_Pa * (air.reference_kgm3 / standardDensity_kgm3) ** (drop.exponent - 1)) /
    drop.flow_m3s ** drop.exponent,
  exponent: drop.exponent,
});

/** Below this a leak counts as tight, m³/(s·Paⁿ): its inverse power would leave the range of numbers. */
const leastLeak = 1e-12;

/** Leak or envelope, Q = C·Δpⁿ with C tested in standard air. */
export const leakLaw = (
  coefficient: number,
  exponent: number,
  air: AirState,
): Pick<LeakLaw, 'kind' | 'coefficient' | 'exponent'> => ({
  kind: 'leak',
  coefficient: coefficient < leastLeak ? 0 : coefficient * leakDensityFactor(air.reference_kgm3, exponent),
  exponent,
});

/**
 * Fan by its table in standard air: a wheel moves the same volume and its pressure goes with ρ (fan laws, from
 * memory). A held flow is counted in room air, as the airflow that ducts are designed for is.
 */
export const fanLaw = (fan: AirSystem['airHandler']['fan'], mode: Mode, air: AirState): FanLaw => ({
  kind: 'fan',
  table: fan.tables[mode].map(
    ([flow, rise]) => [flow, (rise * air.reference_kgm3) / standardDensity_kgm3] as const,
  ),
  off: !fan.running,
  control: fan.constantFlow_m3s && {
    kind: 'constant-flow',
    flow_m3s: fan.constantFlow_m3s[mode],
  },
});
