import { solveAir } from '../air/solve-air.ts';
import type { Air } from '../air/types.ts';
import { solveHeat } from '../heat/solve-heat.ts';
import type { Heat } from '../heat/types.ts';
import { buildLedger } from '../ledger/build-ledger.ts';
import { computeLoads } from '../loads/compute-loads.ts';
import type { Loads } from '../loads/types.ts';
import { zoneTerms } from '../loads/zone-terms.ts';
import type { Mode, Survey } from '../survey/types.ts';
import { airTemperatures } from './air-temperatures.ts';
import { roomStandings } from './room-standings.ts';
import { systemStandings } from './system-standings.ts';
import type { Account } from './types.ts';

/**
 * The whole account of one state of a house in one mode: loads → air → heat → ledger → how rooms and systems stand.
 * The result depends on the survey alone; `previous` only makes the air solve start from a near solution.
 * @throws Error when the ledger does not close (a fault of the program).
 */
export function account(survey: Survey, mode: Mode, previous?: Account): Account {
  const loads = computeLoads(survey, mode);
  const air = solveAir(survey, mode, airTemperatures(survey, mode, loads), previous?.air);
  const heat = solveHeat(survey, mode, loads, zoneTerms(survey, mode), air);
  const ledger = buildLedger(survey, loads, air, heat);
  const rooms = roomStandings(survey, loads, air, heat);
  return {
    mode,
    survey,
    loads,
    air,
    heat,
    ledger,
    rooms,
    systems: systemStandings(survey, air, heat),
    house: {
      load_W: loads.sensible_W,
      ductLoss_W: rooms.reduce((sum, room) => sum + room.ductLoss_W, 0),
      forcedLoad_W: rooms.reduce((sum, room) => sum + room.forcedLoad_W, 0),
      delivered_m3s: rooms.reduce((sum, room) => sum + room.delivered_m3s, 0),
      needed_m3s: rooms.reduce((sum, room) => sum + room.needed_m3s, 0),
      inducedInfiltration_m3s: inducedInfiltration(air, heat, loads),
      pressureToOutdoors_Pa: meanPressure(survey, air),
    },
  };
}

/** Infiltration that fans and leaky ducts add to the natural, while the fans run, m³/s at indoor density. */
function inducedInfiltration(air: Air, heat: Heat, loads: Loads): number {
  let forced_kgs = 0;
  air.elements.forEach((element, e) => {
    if (element.kind === 'envelope' && air.nodes[heat.flow.lower[e]!]!.kind === 'room')
      forced_kgs += heat.flow.mass_kgs[e]!;
  });
  const natural = heat.terms.exchange.filter(
    (term) => term.cause === 'infiltration' && term.when === 'fan on',
  );
  const remaining_kgs = natural.reduce((sum, term) => sum + term.mass_kgs, 0);
  return (forced_kgs + remaining_kgs) / loads.indoor.density_kgm3 - loads.infiltration_m3s;
}

/** Pressure of the rooms to outdoors, weighted by volume. */
function meanPressure(survey: Survey, air: Air): number {
  let sum = 0;
  let volume = 0;
  for (const room of survey.rooms) {
    const node = air.nodes.findIndex((one) => one.kind === 'room' && one.id === room.id);
    sum += room.volume_m3 * air.solution.pressure_Pa[node]!;
    volume += room.volume_m3;
  }
  return volume > 0 ? sum / volume : 0;
}
