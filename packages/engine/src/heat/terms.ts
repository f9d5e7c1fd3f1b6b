import type { Cause } from '../ledger/types.ts';
import type { LoadLine, Loads } from '../loads/types.ts';
import type { ZoneTerms } from '../loads/zone-terms.ts';
import type { Mode, Survey } from '../survey/types.ts';

/** When a term acts: always, only while the fans run, or only while they stand still. */
export type When = 'always' | 'fan on' | 'fan off';

type Term = {
  readonly from: string;
  readonly to: string;
  readonly what: string;
  readonly cause: Cause;
  readonly when: When;
};

/** Heat from one place to another: constant + conductance·(T_from − T_to) + toFall·T_to. */
export type HeatTerm = Term & {
  readonly constant_W: number;
  /** Between two places that both float. */
  readonly conductance_WK: number;
  /** Against a boundary: heat into `to` falls by this for each K that `to` is warmer. */
  readonly boundary_WK: number;
};

/** Air that changes places: `mass_kgs` each way. */
export type ExchangeTerm = Term & { readonly mass_kgs: number };

/** Moisture set free in a place, kg/s. */
export type MoistureTerm = Term & { readonly moisture_kgs: number };

/** All that acts on the temperatures and moisture of rooms and zones besides ducts. */
export type Terms = {
  readonly heat: readonly HeatTerm[];
  readonly exchange: readonly ExchangeTerm[];
  readonly moisture: readonly MoistureTerm[];
};

/** Latent heat of water vapour at 0 °C, J/kg (ASHRAE Handbook—Fundamentals 2021 ch. 1: h = 1.006 t + W(2501 + 1.86 t)). */
export const latentHeat_Jkg = 2.501e6;

/**
 * Air that trades places through an open doorway, per K that would drive it: Cd/3·A·√(g·H·ΔT/T)·ρ at ΔT = 1 K, 2 m high,
 * Cd 0.6, i.e. 0.062 kg/s for each m² (ASHRAE Handbook—Fundamentals 2021 ch. 24, buoyancy through one opening; derived).
 * Taken as constant, so small differences are a little too well and large ones a little too badly mixed.
 */
export const doorwayExchange_kgsm2 = 0.062;

/**
 * Everything that passes between rooms, zones and their surroundings without going through the air network.
 * One list serves the balance and the ledger, so both hold the same figures.
 *
 * Heating and cooling loads enter as they were computed at the set points, and move with the room by their own
 * conductance. Where a load line takes a lagged value (cooling through a ceiling), the difference from the
 * conduction of the hour comes out of, or goes into, the construction: 'storage'.
 *
 * @param remaining share of each room's natural infiltration that is left while the fans run.
 */
export function houseTerms(
  survey: Survey,
  mode: Mode,
  loads: Loads,
  zones: Readonly<Record<string, ZoneTerms>>,
  specificHeat_JkgK: number,
  remaining: ReadonlyMap<string, number>,
): Terms {
  const set_C = mode === 'heating' ? survey.indoor.heating_C : survey.indoor.cooling_C;
  const sign = mode === 'heating' ? -1 : 1;
  const heat: HeatTerm[] = [];
  const exchange: ExchangeTerm[] = [];
  const moisture: MoistureTerm[] = [];
  const isRoom = new Set(survey.rooms.map((room) => room.id));
  const isZone = new Set(survey.zones.map((zone) => zone.id));

  const roomLine = (line: LoadLine) => {
    const { beyond: from, room: to, what, cause } = line;
    const g = line.conductance_WK;
    if (cause === 'infiltration' || cause === 'ventilation') {
      const mass_kgs = g / specificHeat_JkgK;
      exchange.push({ from: 'outdoors', to, what, cause, when: 'fan off', mass_kgs });
      const left_kgs = mass_kgs * (remaining.get(to) ?? 1);
      if (cause === 'infiltration')
        exchange.push({ from: 'outdoors', to, what, cause, when: 'fan on', mass_kgs: left_kgs });
      return;
    }
    if (line.latent_W !== 0)
      moisture.push({ from, to, what, cause, when: 'always', moisture_kgs: line.latent_W / latentHeat_Jkg });
    if (isRoom.has(from)) return; // partitions stand once, below
    const load_W = sign * line.sensible_W;
    if (!isZone.has(from)) {
      heat.push({
        from,
        to,
        what,
        cause,
        when: 'always',
        constant_W: load_W + g * set_C,
        conductance_WK: 0,
        boundary_WK: g,
      });
      return;
    }
    heat.push({ from, to, what, cause, when: 'always', constant_W: 0, conductance_WK: g, boundary_WK: 0 });
    const lag_W = load_W - g * (loads.zoneWithoutDucts_C[from]! - set_C);
    if (Math.abs(lag_W) > 1e-6)
      heat.push({
        from: 'construction',
        to,
        what: `${what}, lag of the construction`,
        cause: 'storage',
        when: 'always',
        constant_W: lag_W,
        conductance_WK: 0,
        boundary_WK: 0,
      });
  };
  for (const line of loads.lines) roomLine(line);

  // A balanced ventilator on a return blows all day; while the fans stand still its air seeps back through the grille.
  for (const ventilator of survey.ventilators) {
    if (ventilator.kind !== 'balanced' || ventilator.returnPart === undefined || !ventilator.running)
      continue;
    const system = survey.systems.find(({ parts }) => parts.some(({ id }) => id === ventilator.returnPart));
    if (!system) continue;
    const mass_kgs = ventilator.flow_m3s * loads.indoor.density_kgm3 * (1 - ventilator.sensibleRecovery);
    const common = {
      from: 'outdoors',
      to: system.thermostatRoom,
      what: ventilator.id,
      cause: 'ventilation',
    } as const;
    exchange.push({ ...common, when: 'fan off', mass_kgs });
  }
  // The design heating load credits no heat of people, but their moisture is what keeps winter air from being as dry as outdoors.
  if (mode === 'heating')
    for (const room of survey.rooms)
      if (room.internalLatent_W > 0)
        moisture.push({
          from: 'occupants',
          to: room.id,
          what: 'people and appliances',
          cause: 'people and appliances',
          when: 'always',
          moisture_kgs: room.internalLatent_W / latentHeat_Jkg,
        });
  for (const surface of survey.surfaces)
    if (isRoom.has(surface.inside) && isRoom.has(surface.beyond))
      heat.push({
        from: surface.beyond,
        to: surface.inside,
        what: surface.name,
        cause: 'partition',
        when: 'always',
        constant_W: 0,
        conductance_WK: surface.u_Wm2K * surface.area_m2,
        boundary_WK: 0,
      });
  for (const door of survey.doors)
    if (door.open)
      exchange.push({
        from: door.between[0],
        to: door.between[1],
        what: `through open ${door.id}`,
        cause: 'door air',
        when: 'always',
        mass_kgs: doorwayExchange_kgsm2 * door.openArea_m2,
      });

  const seen = new Set<string>();
  for (const zone of survey.zones) {
    const terms = zones[zone.id]!;
    for (const { to, surface, conductance_WK } of terms.exchanges) {
      if (isRoom.has(to)) continue; // the room's own load line carries it
      if (isZone.has(to)) {
        if (seen.has(surface)) continue;
        seen.add(surface);
        heat.push({
          from: to,
          to: zone.id,
          what: surface,
          cause: 'transmission',
          when: 'always',
          constant_W: 0,
          conductance_WK,
          boundary_WK: 0,
        });
        continue;
      }
      const beyond_C =
        to === 'ground'
          ? mode === 'heating'
            ? survey.site.groundHeating_C
            : survey.site.groundCooling_C
          : loads.outdoor.temperature_C;
      heat.push({
        from: to,
        to: zone.id,
        what: surface,
        cause: to === 'ground' ? 'ground' : 'transmission',
        when: 'always',
        constant_W: conductance_WK * beyond_C,
        conductance_WK: 0,
        boundary_WK: conductance_WK,
      });
    }
    if (terms.sunGain_W !== 0)
      heat.push({
        from: 'sun',
        to: zone.id,
        what: 'sun on the roof',
        cause: 'sun',
        when: 'always',
        constant_W: terms.sunGain_W,
        conductance_WK: 0,
        boundary_WK: 0,
      });
    if (terms.ventilation_kgs > 0)
      exchange.push({
        from: 'outdoors',
        to: zone.id,
        what: 'outdoor air through the vents',
        cause: 'zone ventilation',
        when: 'always',
        mass_kgs: terms.ventilation_kgs,
      });
  }
  return { heat, exchange, moisture };
}
