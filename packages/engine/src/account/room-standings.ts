import type { Air } from '../air/types.ts';
import type { Heat } from '../heat/types.ts';
import type { Loads } from '../loads/types.ts';
import type { Survey } from '../survey/types.ts';
import { blowingRegisters, broughtHeat_W, type Register } from './registers.ts';
import { findDestinations, traceLosses } from './trace-losses.ts';
import type { PathLoss, RoomStanding } from './types.ts';

/**
 * How each room stands: its load with what its ducts lose, the air it needs and gets, and the temperature it drifts to.
 *
 * Air needed: the system's design airflow shared by (room load + what running ducts add to it + heat conducted by its supply ducts), over the rooms
 * that have a register, as the trade shares airflow by load (common practice, no source). A room with a typed
 * airflow keeps it, and the others share the rest.
 * Leaks do not raise the need: what leaks never arrives, so it shows as shortage.
 */
export function roomStandings(survey: Survey, loads: Loads, air: Air, heat: Heat): RoomStanding[] {
  const destinations = findDestinations(survey, air, heat);
  const set_C = loads.indoor.temperature_C;
  const sign = heat.mode === 'heating' ? 1 : -1;
  const losses = traceLosses(survey, air, heat, heat.atSetPoint, destinations, set_C);
  const registers = blowingRegisters(air, heat);
  const supplies = survey.rooms.map(({ id }) => registers.filter(({ room }) => room === id));
  const pressureOf = spacePressures(air);
  const forced_W = survey.rooms.map(
    (room, r) =>
      broughtHeat_W(heat, heat.atSetPoint, supplies[r]!) +
      // Outdoor air that a ventilator brings through the ducts is work for the room, not a loss on the way.
      lost_W(losses[r]!, (cause) => cause === 'ventilation') -
      sign * heat.atSetPoint.roomGain_W[r]! -
      loadOf(loads, room.id).sensible_W,
  );
  const needed = neededAirflow(survey, loads, losses, forced_W, supplies);
  return survey.rooms.map((room, r): RoomStanding => {
    const load = loadOf(loads, room.id);
    const mass = supplies[r]!.reduce((sum, supply) => sum + supply.mass_kgs, 0);
    const warmth = supplies[r]!.reduce(
      (sum, supply) => sum + supply.mass_kgs * heat.floating.leavingTemperature_C[supply.element]!,
      0,
    );
    const main = supplies[r]!.toSorted((a, b) => b.mass_kgs - a.mass_kgs)[0];
    return {
      room: room.id,
      name: room.name,
      load_W: load.sensible_W,
      ductLoss_W: lost_W(losses[r]!, (cause) => cause !== 'ventilation'),
      forcedLoad_W: forced_W[r]!,
      latent_W: load.latent_W,
      needed_m3s: needed[r]!,
      delivered_m3s: mass / air.referenceDensity_kgm3,
      ...(mass > 0 ? { arrives_C: warmth / mass } : {}),
      predicted_C: heat.floating.temperature_C[room.id]!,
      setPoint_C: set_C,
      pressure_Pa: pressureOf(room.id),
      pressureToHall_Pa: worstDoorPressure(survey, pressureOf, room.id),
      losses: [...losses[r]!, ...(main ? pathDrops(air, heat, main.element) : [])],
    };
  });
}

const loadOf = (loads: Loads, room: string) => loads.rooms.find((one) => one.room === room)!;

const lost_W = (losses: readonly PathLoss[], counts: (cause: PathLoss['cause']) => boolean) =>
  losses.reduce((sum, loss) => sum + (counts(loss.cause) ? loss.sensible_W : 0), 0);

function neededAirflow(
  survey: Survey,
  loads: Loads,
  losses: readonly (readonly PathLoss[])[],
  forced_W: readonly number[],
  supplies: readonly (readonly Register[])[],
): number[] {
  const typed = survey.rooms.map((room) => room.designAirflow_m3s?.[loads.mode]);
  const needed = typed.map((airflow) => airflow ?? 0);
  for (const system of survey.systems) {
    /** This system's part of a room: its part of the air that the room gets. */
    const parts = survey.rooms.map((room, r) => {
      if (!system.parts.some((part) => part.side === 'supply' && part.terminal?.room === room.id)) return 0;
      const sum = (counted: readonly Register[]) =>
        counted.reduce((total, supply) => total + supply.mass_kgs, 0);
      const total = sum(supplies[r]!);
      return total > 0 ? sum(supplies[r]!.filter((supply) => supply.system === system.id)) / total : 1;
    });
    const weights = survey.rooms.map((room, r) => {
      if (parts[r] === 0 || typed[r] !== undefined) return 0;
      const ofSystem = losses[r]!.filter((loss) => loss.system === system.id);
      const load_W = loadOf(loads, room.id).sensible_W + forced_W[r]!;
      return Math.max(0, load_W * parts[r]! + lost_W(ofSystem, (cause) => cause === 'supply conduction'));
    });
    const promised_m3s = typed.reduce<number>((sum, airflow, r) => sum + (airflow ?? 0) * parts[r]!, 0);
    const rest_m3s = Math.max(0, system.designAirflow_m3s[loads.mode] - promised_m3s);
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    weights.forEach((weight, r) => {
      if (total > 0) needed[r]! += (rest_m3s * weight) / total;
    });
  }
  return needed;
}

type PressureOf = (space: string) => number;

/** Pressure of rooms, zones and outdoors by id, Pa. */
function spacePressures({ nodes, solution }: Air): PressureOf {
  const pressures = new Map<string, number>();
  nodes.forEach(({ kind, id }, node) => {
    if (kind !== 'duct') pressures.set(id, solution.pressure_Pa[node]!);
  });
  return (space) => pressures.get(space)!;
}

/** Largest pressure of a room over the spaces behind its doors, with its sign; 0 for a room without doors. */
function worstDoorPressure(survey: Survey, pressureOf: PressureOf, room: string): number {
  let worst = 0;
  for (const { between } of [...survey.doors, ...survey.transfers]) {
    if (!between.includes(room)) continue;
    const other = between[0] === room ? between[1] : between[0];
    const over = pressureOf(room) - pressureOf(other);
    if (Math.abs(over) > Math.abs(worst)) worst = over;
  }
  return worst;
}

/** Total pressure spent on the way from the air handler to one register, part by part. */
function pathDrops(air: Air, { flow }: Heat, register: number): PathLoss[] {
  const way: number[] = [];
  for (let e: number | undefined = register; e !== undefined && way.length < air.elements.length; ) {
    const { kind, side } = air.elements[e]!;
    if (side !== 'supply' || kind === 'fan' || kind === 'coil' || kind === 'filter') break;
    way.push(e);
    e = mainFeeder(air, flow, flow.upper[e]!);
  }
  const drops = new Map<string, { -readonly [K in keyof PathLoss]: PathLoss[K] }>();
  for (const e of way.reverse()) {
    const { kind, of: part, system } = air.elements[e]!;
    const cause = kind === 'terminal' ? 'register' : kind === 'damper' ? 'damper' : 'friction';
    const drop_Pa = air.solution.pressure_Pa[flow.upper[e]!]! - air.solution.pressure_Pa[flow.lower[e]!]!;
    const key = `${part}|${cause}`;
    const same = drops.get(key);
    if (same) same.drop_Pa += drop_Pa;
    else
      drops.set(key, {
        system: system!,
        part,
        what: cause === 'friction' ? 'friction and fittings' : cause,
        cause,
        air_m3s: 0,
        sensible_W: 0,
        drop_Pa,
      });
  }
  return [...drops.values()];
}

/** Of what brings air to a node, leaks aside, the element that brings most. */
function mainFeeder(air: Air, flow: Heat['flow'], node: number): number | undefined {
  let main: number | undefined;
  for (const e of flow.into[node]!)
    if (air.elements[e]!.kind !== 'leak' && (main === undefined || flow.mass_kgs[e]! > flow.mass_kgs[main]!))
      main = e;
  return main;
}
