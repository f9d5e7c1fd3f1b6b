import type { Air } from '../air/types.ts';
import type { Heat } from '../heat/types.ts';
import type { AirSystem, Survey } from '../survey/types.ts';
import { blowingRegisters, broughtHeat_W } from './registers.ts';
import type { SystemStanding } from './types.ts';

/** How each system stands: air moved and lost, pressure against its rating, heat that arrives. */
export function systemStandings(survey: Survey, air: Air, heat: Heat): SystemStanding[] {
  const registers = blowingRegisters(air, heat);
  return survey.systems.map((system, s): SystemStanding => {
    const flows = air.systems[s]!;
    const state = heat.floating.systems[s]!;
    const leaks = operatingLeaks(survey, air, system.id);
    const given_W = heat.floating.share * ((heat.mode === 'heating' ? 1 : -1) * state.output_W);
    const fan_W = heat.floating.share * heat.fanPower_W[s]!;
    const own = registers.filter((register) => register.system === system.id);
    const arrived_W = broughtHeat_W(heat, heat.floating, own);
    return {
      system: system.id,
      name: system.name,
      fanFlow_m3s: flows.fanFlow_m3s,
      designAirflow_m3s: system.designAirflow_m3s[heat.mode],
      externalStatic_Pa: flows.externalStatic_Pa,
      ratedExternalStatic_Pa: system.airHandler.fan.ratedExternalStatic_Pa,
      fanAtLimit: flows.fanAtLimit,
      supplyLeak_m3s: leaks.supply,
      returnLeak_m3s: leaks.return,
      supplyLeakOutside_m3s: leaks.supplyOutside,
      returnLeakOutside_m3s: leaks.returnOutside,
      supplyLeak25_m3s: surveyedLeakage25(system, 'supply'),
      returnLeak25_m3s: surveyedLeakage25(system, 'return'),
      capacity_W: Math.abs(state.baseOutput_W),
      runFraction: state.runFraction,
      supplementary_W: state.supplementaryOutput_W,
      supplementaryFraction: state.supplementaryFraction,
      short: state.short,
      deliveryEfficiency: given_W > 0 ? arrived_W / (heat.mode === 'heating' ? given_W + fan_W : given_W) : 0,
      leavesAt_C: state.supplyTemperature_C,
      returnsAt_C: state.returnTemperature_C,
    };
  });
}

/** Net leak flows of a system while its fan runs: out of the supply side, into the return side. */
function operatingLeaks(survey: Survey, air: Air, system: string) {
  const outsideZones = new Set(survey.zones.filter((zone) => !zone.insideEnvelope).map((zone) => zone.id));
  const total = { supply: 0, return: 0, supplyOutside: 0, returnOutside: 0 };
  air.elements.forEach((element, e) => {
    if (element.kind !== 'leak' || element.system !== system) return;
    const fromDuct = air.nodes[element.from]!.kind === 'duct';
    const place = air.nodes[fromDuct ? element.to : element.from]!;
    const out_m3s = (fromDuct ? 1 : -1) * air.solution.flow_m3s[e]!;
    const outside = place.kind === 'outdoors' || (place.kind === 'zone' && outsideZones.has(place.id));
    if (element.side === 'return') {
      total.return -= out_m3s;
      if (outside) total.returnOutside -= out_m3s;
    } else {
      total.supply += out_m3s;
      if (outside) total.supplyOutside += out_m3s;
    }
  });
  return total;
}

/** Leakage at 25 Pa that the survey states, part by part, and what is still to be spread; the cabinet counts as return. */
function surveyedLeakage25(system: AirSystem, side: 'supply' | 'return'): number {
  const parts = system.parts.filter((part) => part.side === side).flatMap((part) => part.leaks);
  const cabinet = side === 'return' ? system.airHandler.leaks : [];
  const spread = system.spreadLeakage.filter((one) => one.side === side);
  return [...parts, ...cabinet, ...spread].reduce((sum, leak) => sum + leak.flow25_m3s, 0);
}
