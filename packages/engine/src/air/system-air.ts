import type { Network, NetworkSolution } from '../network/index.ts';
import type { SystemPlaces } from './add-system.ts';
import type { SystemAir } from './types.ts';

/**
 * Flow and pressures of one air handler, as gauges at the openings of its cabinet would read them: static pressure
 * against the space the cabinet stands in. Which openings those are is said at `addSystem`.
 */
export function systemAir(places: SystemPlaces, network: Network, solution: NetworkSolution): SystemAir {
  const { flow_m3s, pressure_Pa } = solution;
  const element = network.elements[places.fan]!;
  const flow = flow_m3s[places.fan]!;
  const static_Pa = (node: number, area_m2: number) => {
    const velocity_ms = area_m2 > 0 ? flow / area_m2 : 0;
    return (
      pressure_Pa[node]! - (network.air.density_kgm3 * velocity_ms ** 2) / 2 - pressure_Pa[places.around]!
    );
  };
  const supplyStatic_Pa = static_Pa(places.supplyOpening, places.supplyArea_m2);
  const returnStatic_Pa = static_Pa(places.returnOpening, places.returnArea_m2);
  return {
    system: places.system,
    fan: places.fan,
    fanFlow_m3s: flow,
    fanRise_Pa: pressure_Pa[element.to]! - pressure_Pa[element.from]!,
    supplyStatic_Pa,
    returnStatic_Pa,
    externalStatic_Pa: supplyStatic_Pa - returnStatic_Pa,
    fanAtLimit: solution.fanAtLimit.includes(places.fan),
    returning: places.returning,
    leaving: places.leaving,
  };
}
