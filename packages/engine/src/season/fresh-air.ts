import { hourlyInfiltration_m3s, leakageCoefficient } from '../loads/hourly-infiltration.ts';
import { combinedInfiltration_m3s } from '../loads/infiltration.ts';
import type { Survey, Ventilator } from '../survey/types.ts';
import type { FanState } from './fan-state.ts';
import type { SeasonOptions } from './types.ts';

/** Outdoor air that enters each place outside the duct network, kg/s; written anew for every hour. */
export type FreshAir = {
  /** While the fans stand still: infiltration with ventilators. */
  readonly still_kgs: Float64Array;
  /** While they run: what natural infiltration is left beside the air they force. */
  readonly running_kgs: Float64Array;
};

const least_m3s = 1e-9;

/**
 * Outdoor air by hour: natural infiltration by wind and temperature difference (Walker and Wilson 1998), unbalanced
 * ventilators as max(Q_u, Q_i + Q_u/2), and the share that forced air leaves of the natural (ASHRAE
 * Handbook—Fundamentals 2021 ch. 16 and ch. 17, eq. 12–14). Zones breathe between their two design air changes, by
 * outdoor temperature between the two design days.
 */
export function freshAir(
  survey: Survey,
  density_kgm3: number,
  shelter: SeasonOptions['shelter'],
): (
  outdoor_C: number,
  indoor_C: number,
  wind_ms: number,
  state: FanState | undefined,
  out: FreshAir,
) => void {
  const { house, site, rooms, zones } = survey;
  const coefficient = leakageCoefficient(house);
  const setting = {
    storeys: house.storeys,
    shelter: shelter ?? 3,
    flue: house.flueArea_cm2 > 0,
    foundation: zones.some((zone) => zone.kind === 'crawlspace') ? 'crawlspace' : 'basement or slab',
  } as const;
  const { fixed_m3s, excess_m3s, excessShare } = ventilation(survey);
  return (outdoor_C, indoor_C, wind_ms, state, out) => {
    const natural_m3s =
      coefficient > 0
        ? hourlyInfiltration_m3s(coefficient, house.leakageExponent, setting, indoor_C - outdoor_C, wind_ms)
        : 0;
    const added_m3s =
      excess_m3s > least_m3s ? combinedInfiltration_m3s(natural_m3s, excess_m3s) - natural_m3s : 0;
    for (let r = 0; r < rooms.length; r++) {
      const natural_kgs = natural_m3s * rooms[r]!.envelopeShare * density_kgm3;
      out.still_kgs[r] = natural_kgs + (fixed_m3s[r]! + added_m3s * excessShare[r]!) * density_kgm3;
      out.running_kgs[r] = state ? Math.max(0, natural_kgs - 0.5 * Math.abs(state.forced_kgs[r]!)) : 0;
    }
    const span_K = Math.max(1, site.coolingDryBulb_C - site.heatingDryBulb_C);
    const summer = Math.min(1, Math.max(0, (outdoor_C - site.heatingDryBulb_C) / span_K));
    for (let z = 0; z < zones.length; z++) {
      const { heating, cooling } = zones[z]!.airChange_perHour;
      const air_kgs = ((heating + summer * (cooling - heating)) * zones[z]!.volume_m3 * density_kgm3) / 3600;
      out.still_kgs[rooms.length + z] = air_kgs;
      out.running_kgs[rooms.length + z] = air_kgs;
    }
  };
}

/** Ventilators that run while the air handlers stand still, as in the design load. */
function ventilation({ rooms, ventilators, systems }: Survey) {
  const fixed_m3s = new Float64Array(rooms.length);
  const running = ventilators.filter((fan) => fan.running && fan.flow_m3s > 0);
  const give = (room: string | undefined, flow_m3s: number) => {
    rooms.forEach(({ id, envelopeShare }, r) => {
      if (room === undefined) fixed_m3s[r]! += flow_m3s * envelopeShare;
      else if (id === room) fixed_m3s[r]! += flow_m3s;
    });
  };
  const roomOf = (fan: Ventilator): string | undefined =>
    fan.returnPart === undefined
      ? fan.room
      : systems.find(({ parts }) => parts.some(({ id }) => id === fan.returnPart))?.thermostatRoom;
  for (const fan of running)
    if (fan.kind === 'balanced') give(roomOf(fan), fan.flow_m3s * (1 - fan.sensibleRecovery));
  const placed = running.filter((fan) => fan.returnPart === undefined);
  const total = (kind: Ventilator['kind']) =>
    placed.reduce((sum, fan) => sum + (fan.kind === kind ? fan.flow_m3s : 0), 0);
  const supplied = total('supply');
  const exhausted = total('exhaust');
  for (const fan of placed)
    if (fan.kind === 'supply') give(fan.room, (Math.min(supplied, exhausted) * fan.flow_m3s) / supplied);
  return {
    fixed_m3s,
    excess_m3s: Math.abs(supplied - exhausted),
    excessShare: rooms.map(({ envelopeShare }) => envelopeShare),
  };
}
