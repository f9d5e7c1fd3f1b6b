import factors from '../../data/load-factors.json' with { type: 'json' };
import type { BufferZone, Mode, Surface, Survey } from '../survey/types.ts';
import { designAir } from './air-states.ts';
import { designHourHorizontal_Wm2 } from './peak-irradiance.ts';
import { windowSun } from './window-sun.ts';

/** Heat that passes between a zone and another place through one surface. */
export type ZoneExchange = {
  /** 'outdoors', 'ground', or the id of a room or zone. */
  readonly to: string;
  readonly surface: string;
  readonly conductance_WK: number;
};

/** What a buffer zone exchanges on the design hour, ducts and leaks excluded. */
export type ZoneTerms = {
  readonly exchanges: readonly ZoneExchange[];
  /** Outdoor air that the wind and its own warmth draw through it. */
  readonly ventilation_kgs: number;
  /** Sun on roof, walls and glass as heat that reaches the zone, sky radiation subtracted. */
  readonly sunGain_W: number;
};

/** Outer surface coefficient in summer, W/(m²·K). ASHRAE Handbook—Fundamentals 2021 ch. 18. */
const summerSurfaceCoefficient = 17;
/** Emittance × radiation that a horizontal surface sends to a clear sky, W/m². ASHRAE ch. 18, ΔR = 63. */
const skyRadiation_Wm2 = 0.9 * 63;
/** Medium asphalt shingle. ASHRAE Handbook—Fundamentals 2021 ch. 17. */
export const usualRoofAbsorptance = 0.85;

/** How much warmer than the air the sun makes a roof's outer surface feel in the cooling design hour, K (sol-air). */
const roofSunExcess_K = (latitude_deg: number, absorptance: number): number =>
  (absorptance * designHourHorizontal_Wm2(latitude_deg) - skyRadiation_Wm2) / summerSurfaceCoefficient;

const sunOn = (surface: Surface, latitude_deg: number): number => {
  if (surface.beyond !== 'outdoors') return 0;
  const conductance_WK = surface.u_Wm2K * surface.area_m2;
  switch (surface.kind) {
    case 'window':
    case 'skylight':
      return surface.area_m2 * windowSun(surface, latitude_deg).gain;
    case 'roof':
    case 'ceiling':
      if (surface.shaded) return 0;
      return conductance_WK * roofSunExcess_K(latitude_deg, surface.sunAbsorptance ?? usualRoofAbsorptance);
    case 'wall':
    case 'door':
      return surface.shaded ? 0 : conductance_WK * factors.opaque['wall or door in sun'].offset;
    default:
      return 0;
  }
};

/** A slab's edge loss is defined against outdoor air in winter; in summer the edge faces warm ground instead. */
const exchange = (surface: Surface, to: string, mode: Mode): ZoneExchange =>
  surface.slab
    ? {
        to: mode === 'heating' ? 'outdoors' : 'ground',
        surface: surface.id,
        conductance_WK: surface.slab.edgeLoss_WmK * surface.slab.edge_m,
      }
    : { to, surface: surface.id, conductance_WK: surface.u_Wm2K * surface.area_m2 };

const termsOf = (survey: Survey, mode: Mode, zone: BufferZone, outdoorDensity_kgm3: number): ZoneTerms => {
  const exchanges: ZoneExchange[] = [];
  let sunGain_W = 0;
  for (const surface of survey.surfaces) {
    if (surface.inside === zone.id) {
      exchanges.push(exchange(surface, surface.beyond, mode));
      if (mode === 'cooling') sunGain_W += sunOn(surface, survey.site.latitude_deg);
    } else if (surface.beyond === zone.id) exchanges.push(exchange(surface, surface.inside, mode));
  }
  const ventilation_m3s = (zone.airChange_perHour[mode] * zone.volume_m3) / 3600;
  return { exchanges, ventilation_kgs: ventilation_m3s * outdoorDensity_kgm3, sunGain_W };
};

/**
 * The heat balance of every buffer zone as separate terms, so that ducts and leaks can be added to it.
 * A surface between two zones is listed in both. No sun and no night sky are counted in heating.
 * ASHRAE Handbook—Fundamentals 2021 ch. 17 (balance of a buffer space) and ch. 18 (sol-air temperature).
 */
export const zoneTerms = (survey: Survey, mode: Mode): Record<string, ZoneTerms> => {
  const { outdoor } = designAir(survey, mode);
  return Object.fromEntries(
    survey.zones.map((zone) => [zone.id, termsOf(survey, mode, zone, outdoor.density_kgm3)]),
  );
};
