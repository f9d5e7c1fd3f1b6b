import type { Account } from '../account/types.ts';
import { actionOf } from '../heat/equipment-action.ts';
import { standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import type { CuredAir } from './solve-subsets.ts';

/** Air that the fan of a system moves, m³/s. */
export const fanFlow = ({ elements, solution }: CuredAir, system: string): number =>
  Math.abs(
    solution.flow_m3s[elements.findIndex((element) => element.kind === 'fan' && element.system === system)]!,
  );

/** How warm air arrives over how warm it does in the most probable house (1 there), by what the fan moves, m³/s, and a mask of cures. */
export type DrawnWarmth = (fan_m3s: number, mask: number) => number;

/**
 * How much more a system warms (or cools) its air in houses that the readings allow than in the most probable one: what
 * the equipment gives, over what the fan moves. Equipment that does not suffice gives what it can at the fan's flow as the
 * house stands; the thermostat holds what other equipment gives.
 * It scales how far the air arrives from the set point; where the air that enters is itself off the set point, as with
 * large return leaks, that is right to first order only.
 * @param probable_m3s what the fan moves in the most probable house, by mask of cures
 * @returns given what the fan moves in that house before any cure, m³/s, its `DrawnWarmth`
 */
export function drawnWarmth(
  { survey, mode, loads, heat, air }: Account,
  system: string,
  probable_m3s: Float64Array,
): (fan_m3s: number) => DrawnWarmth {
  const s = survey.systems.findIndex(({ id }) => id === system);
  const source = heat.source[s]!;
  const { short } = heat.floating.systems[s]!;
  const enters = heat.flow.upper[source]!;
  /** Output at a flow, W. */
  const output = (fan_m3s: number): number => {
    const mass_kgs = heat.flow.mass_kgs.slice();
    mass_kgs[source] = fan_m3s * air.referenceDensity_kgm3;
    const house = {
      survey,
      mode,
      loads,
      source: heat.source,
      flow: { mass_kgs },
      pressure_Pa: standardPressure_Pa(survey.site.elevation_m),
    };
    const { nodeTemperature_C, nodeHumidityRatio } = heat.floating;
    const { base_W, supplementary_W } = actionOf(
      house,
      s,
      nodeTemperature_C[enters]!,
      nodeHumidityRatio[enters]!,
    );
    return base_W + supplementary_W;
  };
  const probable_W = short ? output(probable_m3s[0]!) : 1;
  return (asItStands_m3s) => {
    const gives = short && probable_W !== 0 ? output(asItStands_m3s) / probable_W : 1;
    return (fan_m3s, mask) => (fan_m3s > 0 ? (gives * probable_m3s[mask]!) / fan_m3s : 1);
  };
}
