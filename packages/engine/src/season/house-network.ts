import type { WeatherYear } from '../climate/read-weather-file.ts';
import { doorwayExchange_kgsm2 } from '../heat/terms.ts';
import { usualRoofAbsorptance } from '../loads/zone-terms.ts';
import type { BufferZone, Surface, Survey } from '../survey/types.ts';
import { irradianceOn, throughWindow } from './surface-sun.ts';
import type { MassClass } from './types.ts';

/** Sun that falls into a place: a factor on a series of the year. */
export type SunTerm = { readonly factor: number; readonly series: Float64Array };

/** What holds in every hour: places are rooms, then zones, in the order of the survey. */
export type HouseNetwork = {
  readonly places: readonly string[];
  readonly rooms: number;
  /** Between places, W/K, n × n, symmetric, diagonal 0. */
  readonly between_WK: Float64Array;
  readonly outdoors_WK: Float64Array;
  readonly ground_WK: Float64Array;
  readonly edge_WK: Float64Array;
  /** Heat on the air that no weather changes: people, appliances; the clear sky takes from roofs. */
  readonly steady_W: Float64Array;
  readonly people_W: Float64Array;
  /** Sun on opaque surfaces, into the air; and through glass, onto what the room is made of. */
  readonly wallSun: readonly (readonly SunTerm[])[];
  readonly glassSun: readonly (readonly SunTerm[])[];
  /** Heat capacity of what a place is made of, J/K, and its coupling to the air, W/K. */
  readonly capacity_JK: Float64Array;
  readonly coupling_WK: Float64Array;
};

/** Outer surface coefficient, W/(m²·K), and radiation of a roof to a clear sky, W/m². ASHRAE Handbook—Fundamentals 2021 ch. 18. */
const outerSurface_Wm2K = 17;
const skyRadiation_Wm2 = 0.9 * 63;
/** Absorptance of painted walls of medium colour (from memory). */
const usualWallAbsorptance = 0.6;
/** Effective capacity, kJ/(m²·K) of floor area. Classes of ISO 13790:2008 (from memory). */
const classCapacity_JKm2: Record<MassClass, number> = {
  'very light': 80e3,
  light: 110e3,
  medium: 165e3,
  heavy: 260e3,
};
/** Air to mass per floor area: 3.45·4.5 and 9.1·2.5 W/(m²·K) in series. ISO 13790:2008 Annex C (from memory). */
const massCoupling_Wm2K = 1 / (1 / (3.45 * 4.5) + 1 / (9.1 * 2.5));
/** Capacity of the surfaces of a buffer zone, J/(m²·K): wooden decks and frames, concrete and soil (from memory). */
const lightZone_JKm2 = 15e3;
const groundZone_JKm2 = 100e3;

/** Floor area of a zone where its surfaces do not tell: its volume over a usual height (common practice, no source). */
const zoneHeight_m = 2.4;

const zoneCapacity_JK = (survey: Survey, zone: BufferZone): number => {
  let capacity = 0;
  for (const surface of survey.surfaces) {
    if (surface.inside !== zone.id && surface.beyond !== zone.id) continue;
    const touchesGround = surface.beyond === 'ground';
    capacity += surface.area_m2 * (touchesGround ? groundZone_JKm2 : lightZone_JKm2);
  }
  return Math.max(capacity, (zone.volume_m3 / zoneHeight_m) * lightZone_JKm2);
};

/**
 * The house without its ducts as conductances, sun and mass. Opaque surfaces conduct from air to air with the survey's U,
 * so that the loss at the thermostat is UA·ΔT; each room's mass hangs on its air.
 * A slab's edge loss (F_p·p) runs to the ground at its edge.
 */
export const houseNetwork = (
  survey: Survey,
  year: WeatherYear,
  mass: MassClass | undefined,
): HouseNetwork => {
  const places = [...survey.rooms.map(({ id }) => id), ...survey.zones.map(({ id }) => id)];
  const n = places.length;
  const index = new Map(places.map((id, i) => [id, i]));
  const rooms = survey.rooms.length;
  const vector = () => new Float64Array(n);
  const network = {
    places,
    rooms,
    between_WK: new Float64Array(n * n),
    outdoors_WK: vector(),
    ground_WK: vector(),
    edge_WK: vector(),
    steady_W: vector(),
    people_W: vector(),
    wallSun: places.map((): SunTerm[] => []),
    glassSun: places.map((): SunTerm[] => []),
    capacity_JK: vector(),
    coupling_WK: vector(),
  };
  for (const surface of survey.surfaces) addSurface(network, index, surface, year);
  for (const door of survey.doors)
    if (door.open)
      tie(
        network,
        index.get(door.between[0]),
        index.get(door.between[1]),
        doorConductance_WK(door.openArea_m2),
      );
  const capacity_JKm2 = mass
    ? classCapacity_JKm2[mass]
    : (classCapacity_JKm2.light + classCapacity_JKm2.medium) / 2;
  survey.rooms.forEach((room, i) => {
    network.people_W[i] = room.internalSensible_W;
    network.capacity_JK[i] = room.floorArea_m2 * capacity_JKm2;
    network.coupling_WK[i] = room.floorArea_m2 * massCoupling_Wm2K;
  });
  survey.zones.forEach((zone, z) => {
    network.capacity_JK[rooms + z] = zoneCapacity_JK(survey, zone);
  });
  return network;
};

/** Specific heat of ordinary indoor air, J/(kg·K), for exchanges between rooms. */
const roomAir_JkgK = 1020;
const doorConductance_WK = (area_m2: number): number => doorwayExchange_kgsm2 * area_m2 * roomAir_JkgK;

type Growing = {
  readonly places: readonly string[];
  readonly between_WK: Float64Array;
  readonly outdoors_WK: Float64Array;
  readonly ground_WK: Float64Array;
  readonly edge_WK: Float64Array;
  readonly steady_W: Float64Array;
  readonly wallSun: SunTerm[][];
  readonly glassSun: SunTerm[][];
};

const tie = (
  { places, between_WK }: Growing,
  a: number | undefined,
  b: number | undefined,
  g: number,
): void => {
  if (a === undefined || b === undefined || a === b) return;
  between_WK[a * places.length + b]! += g;
  between_WK[b * places.length + a]! += g;
};

const addSurface = (
  network: Growing,
  index: ReadonlyMap<string, number>,
  surface: Surface,
  year: WeatherYear,
): void => {
  const inside = index.get(surface.inside);
  const beyond = index.get(surface.beyond);
  const conductance_WK = surface.u_Wm2K * surface.area_m2;
  if (inside === undefined) return;
  if (beyond !== undefined) {
    tie(network, inside, beyond, conductance_WK);
    return;
  }
  if (surface.slab && surface.beyond === 'ground') {
    network.edge_WK[inside]! += surface.slab.edgeLoss_WmK * surface.slab.edge_m;
    return;
  }
  if (surface.beyond === 'ground') {
    network.ground_WK[inside]! += conductance_WK;
    return;
  }
  network.outdoors_WK[inside]! += conductance_WK;
  const { kind, glass, facing_deg } = surface;
  const shaded = surface.shaded ?? false;
  if (kind === 'window' || kind === 'skylight') {
    if (!glass) return;
    const factor = surface.area_m2 * glass.solarHeatGain * glass.shadeFactor * glass.screen;
    network.glassSun[inside]!.push({ factor, series: throughWindow(year, surface) });
    return;
  }
  if (kind === 'floor') return;
  const isRoof = kind === 'roof' || kind === 'ceiling';
  const absorptance = surface.sunAbsorptance ?? (isRoof ? usualRoofAbsorptance : usualWallAbsorptance);
  const factor = (conductance_WK * absorptance) / outerSurface_Wm2K;
  // A wall of which nobody says where it faces stands for a quarter to each side.
  const facings = isRoof ? [undefined] : facing_deg === undefined ? [0, 90, 180, 270] : [facing_deg];
  for (const facing of facings)
    network.wallSun[inside]!.push({
      factor: factor / facings.length,
      series: irradianceOn(year, facing, shaded),
    });
  if (isRoof && !shaded) network.steady_W[inside]! -= (conductance_WK * skyRadiation_Wm2) / outerSurface_Wm2K;
};
