import type { Surface } from '../survey/types.ts';
import { degrees, figure, type LoadContext } from './load-context.ts';
import type { LoadLine } from './types.ts';

const steady = 'ASHRAE Handbook—Fundamentals 2021, ch. 17, heating load';
const slabEdge = 'ASHRAE Handbook—Fundamentals 2021, ch. 18, slab-edge loss F_p·p·Δt';

/** Temperature on the far side of a surface on the heating design day. */
const beyondTemperature = (beyond: string, { survey, outdoor, zoneWithoutDucts_C }: LoadContext): number => {
  if (beyond === 'outdoors') return outdoor.temperature_C;
  if (beyond === 'ground') return survey.site.groundHeating_C;
  return zoneWithoutDucts_C[beyond] ?? outdoor.temperature_C;
};

/** Heat a room loses through one surface at the design hour: U·A·Δt, or F_p·p·Δt for a slab on grade. */
export const heatingSurfaceLines = (
  surface: Surface,
  room: string,
  beyond: string,
  context: LoadContext,
): LoadLine[] => {
  const indoor_C = context.indoor.temperature_C;
  const line = { room, of: surface.id, what: surface.name, beyond, latent_W: 0 };
  if (surface.slab && beyond === 'ground') {
    const { edge_m, edgeLoss_WmK } = surface.slab;
    const outdoor_C = context.outdoor.temperature_C;
    const conductance_WK = edgeLoss_WmK * edge_m;
    return [
      {
        ...line,
        cause: 'ground',
        sensible_W: conductance_WK * (indoor_C - outdoor_C),
        conductance_WK,
        formula: `${figure(edgeLoss_WmK, 2)} W/(m·K) × ${figure(edge_m, 1)} m × (${degrees(indoor_C)} − ${degrees(outdoor_C)}) K`,
        source: slabEdge,
      },
    ];
  }
  const conductance_WK = surface.u_Wm2K * surface.area_m2;
  const beyond_C = beyondTemperature(beyond, context);
  return [
    {
      ...line,
      cause: beyond === 'ground' ? 'ground' : 'transmission',
      sensible_W: conductance_WK * (indoor_C - beyond_C),
      conductance_WK,
      formula: `${figure(surface.u_Wm2K, 3)} W/(m²·K) × ${figure(surface.area_m2, 2)} m² × (${degrees(indoor_C)} − ${degrees(beyond_C)}) K`,
      source: steady,
    },
  ];
};
