import { leakDensityFactor, standardDensity_kgm3 } from '../ducts/leakage-law.ts';
import type { FanLaw, PowerLaw, Table } from '../network/types.ts';
import {
  kinematicViscosity,
  moistAirDensity,
  standardPressure_Pa,
} from '../psychrometrics/air-properties.ts';
import type { Mode, PressureDrop, Survey } from '../survey/types.ts';

/**
 * How thin and thick air share one network. Nodes must conserve mass, so every flow is the mass flow of dry air
 * over one reference density ρ₀ (indoor air at the site's elevation). Air of density ρ then really moves at
 * Q·ρ₀/ρ, and a dynamic loss becomes C·½ρ·(Q·ρ₀/ρ)²/A² = C·½(ρ₀²/ρ)·(Q/A)²: the network does this for ducts and
 * openings that state their own density. Filters, coils, leaks and fans are tested at standard density and follow
 * other powers of ρ; their laws are rewritten here.
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
 * Filter or coil, Δp = drop·(Q/flow)^m rated at standard density: between a viscous medium (m = 1, Δp does not
 * depend on ρ at the same true flow) and a dynamic loss (m = 2, Δp ∝ ρ) it goes as ρ^(m−1).
 */
export function pressureDropLaw(drop: PressureDrop, density_kgm3: number, air: AirState): PowerLaw {
  const density = (density_kgm3 / standardDensity_kgm3) ** (drop.exponent - 1);
  const trueFlow = (air.reference_kgm3 / density_kgm3) ** drop.exponent;
  return {
    kind: 'power',
    resistance: (drop.drop_Pa * density * trueFlow) / drop.flow_m3s ** drop.exponent,
    exponent: drop.exponent,
  };
}

/** Leak coefficient at standard density → coefficient of the reference flow of air of the given density. */
export const leakAtDensity = (
  coefficient: number,
  exponent: number,
  density_kgm3: number,
  air: AirState,
): number => (coefficient * leakDensityFactor(density_kgm3, exponent) * density_kgm3) / air.reference_kgm3;

/**
 * Fan at its own density: a wheel moves the same volume and its pressure goes with ρ (fan laws,
 * ASHRAE Handbook—HVAC Systems and Equipment, fans; from memory).
 */
export function fanLaw(
  table: Table,
  running: boolean,
  constantFlow_m3s: number | undefined,
  density_kgm3: number,
  air: AirState,
): FanLaw {
  const perVolume = density_kgm3 / air.reference_kgm3;
  return {
    kind: 'fan',
    table: table.map(
      ([flow, rise]) => [flow * perVolume, (rise * density_kgm3) / standardDensity_kgm3] as const,
    ),
    off: !running,
    control:
      constantFlow_m3s === undefined
        ? undefined
        : { kind: 'constant-flow', flow_m3s: constantFlow_m3s * perVolume },
  };
}
