import factors from '../../data/load-factors.json' with { type: 'json' };
import type { Surface } from '../survey/types.ts';
import { degrees, figure, type LoadContext } from './load-context.ts';
import type { LoadLine } from './types.ts';
import { windowSun } from './window-sun.ts';
import { usualRoofAbsorptance } from './zone-terms.ts';

type Exposure = keyof typeof factors.opaque;

const method = 'ASHRAE Handbook—Fundamentals 2021, ch. 17, residential load factors';
const zoneMethod = 'ASHRAE Handbook—Fundamentals 2021, ch. 17, balance of a buffer space';

/** Resistance of the still air above a floor, m²·K/W, in the slab formula. */
const slabSurfaceResistance = 0.12;

/** Which load factor a surface takes; undefined when the temperature beyond it decides. */
const exposureOf = (surface: Surface, beyond: string, context: LoadContext): Exposure | undefined => {
  const wall = surface.shaded ? 'wall or door in shade' : 'wall or door in sun';
  if (beyond === 'outdoors') {
    if (surface.kind === 'floor') return 'floor over open air';
    return surface.kind === 'roof' || surface.kind === 'ceiling' ? 'roof and ceiling' : wall;
  }
  const zone = context.zones.get(beyond);
  if (!zone || zone.insideEnvelope) return undefined;
  if (zone.kind === 'attic') return 'vented attic';
  if (zone.kind === 'crawlspace') return surface.kind === 'floor' ? 'floor over crawlspace' : undefined;
  if (zone.kind === 'garage')
    return surface.kind === 'floor' ? 'floor over open air' : 'wall or door in shade';
  return undefined;
};

/** A ceiling seldom says what roof lies over its attic; the roof does. */
const absorptanceAbove = (surface: Surface, beyond: string, { survey }: LoadContext): number => {
  if (surface.sunAbsorptance !== undefined) return surface.sunAbsorptance;
  let area_m2 = 0;
  let absorbed = 0;
  for (const other of survey.surfaces)
    if (other.kind === 'roof' && other.inside === beyond) {
      area_m2 += other.area_m2;
      absorbed += other.area_m2 * (other.sunAbsorptance ?? usualRoofAbsorptance);
    }
  return area_m2 > 0 ? absorbed / area_m2 : usualRoofAbsorptance;
};

type Line = Pick<LoadLine, 'room' | 'of' | 'what' | 'beyond' | 'latent_W'>;

const slabLine = (surface: Surface, slab: NonNullable<Surface['slab']>, line: Line): LoadLine => {
  const surfaceConductance = 1 / (slab.coverResistance_m2KW + slabSurfaceResistance);
  return {
    ...line,
    cause: 'ground',
    sensible_W: surface.area_m2 * (1.9 - 1.4 * surfaceConductance),
    conductance_WK: slab.edgeLoss_WmK * slab.edge_m,
    formula: `${figure(surface.area_m2, 2)} m² × (1.9 − 1.4 × ${figure(surfaceConductance, 2)}) W/m²`,
    source: method,
  };
};

const windowLines = (surface: Surface, line: Line, context: LoadContext): LoadLine[] => {
  const { area_m2, u_Wm2K, glass } = surface;
  const { dailyRange_K, latitude_deg } = context.survey.site;
  const conductance_WK = u_Wm2K * area_m2;
  const transmission: LoadLine = {
    ...line,
    cause: 'transmission',
    sensible_W: conductance_WK * (context.difference_K + factors.window.swing * dailyRange_K),
    conductance_WK,
    formula: `${figure(area_m2, 2)} m² × ${figure(u_Wm2K, 2)} W/(m²·K) × (${figure(context.difference_K, 1)} − 0.46 × ${figure(dailyRange_K, 1)}) K`,
    source: method,
  };
  if (!glass || line.beyond !== 'outdoors') return [transmission];
  const sun = windowSun(surface, latitude_deg);
  return [
    transmission,
    {
      ...line,
      cause: 'sun',
      sensible_W: area_m2 * sun.gain,
      conductance_WK: 0,
      formula: `${figure(area_m2, 2)} m² × ${figure(sun.irradiance, 0)} W/m² (${figure(100 * sun.shadedShare, 0)} % shaded) × SHGC ${figure(glass.solarHeatGain, 2)} × shade ${figure(glass.shadeFactor, 2)} × FF ${figure(sun.fenestrationFactor, 2)}`,
      source: method,
    },
  ];
};

const opaqueLine = (surface: Surface, exposure: Exposure, line: Line, context: LoadContext): LoadLine => {
  const { time, sun, offset, swing } = factors.opaque[exposure];
  const { dailyRange_K } = context.survey.site;
  const conductance_WK = surface.u_Wm2K * surface.area_m2;
  const sunlit = sun === 0 ? offset : sun * absorptanceAbove(surface, line.beyond, context) + offset;
  return {
    ...line,
    cause: 'transmission',
    sensible_W: conductance_WK * (time * context.difference_K + sunlit + swing * dailyRange_K),
    conductance_WK,
    formula: `${figure(surface.area_m2, 2)} m² × ${figure(surface.u_Wm2K, 3)} W/(m²·K) × (${time} × ${figure(context.difference_K, 1)} + ${figure(sunlit, 1)} − ${-swing} × ${figure(dailyRange_K, 1)}) K, ${exposure}`,
    source: method,
  };
};

/**
 * Heat a room gains through one surface in the cooling design hour, by residential load factors;
 * windows give one line for conduction and one for the sun. Where no factor exists (basement, space between floors,
 * a zone inside the envelope) the zone's own temperature drives U·A. Ground gives and takes nothing but through slabs.
 * A slab's conductance is that of its edge: the factor has none of its own.
 */
export const coolingSurfaceLines = (
  surface: Surface,
  room: string,
  beyond: string,
  context: LoadContext,
): LoadLine[] => {
  const line: Line = { room, of: surface.id, what: surface.name, beyond, latent_W: 0 };
  if (beyond === 'ground') {
    if (surface.slab) return [slabLine(surface, surface.slab, line)];
    return [
      {
        ...line,
        cause: 'ground',
        sensible_W: 0,
        conductance_WK: surface.u_Wm2K * surface.area_m2,
        formula: 'below grade: left out of the cooling load',
        source: method,
      },
    ];
  }
  if (surface.kind === 'window' || surface.kind === 'skylight') return windowLines(surface, line, context);
  const exposure = exposureOf(surface, beyond, context);
  if (exposure) return [opaqueLine(surface, exposure, line, context)];
  const conductance_WK = surface.u_Wm2K * surface.area_m2;
  const zone_C = context.zoneWithoutDucts_C[beyond] ?? context.outdoor.temperature_C;
  const indoor_C = context.indoor.temperature_C;
  return [
    {
      ...line,
      cause: 'transmission',
      sensible_W: conductance_WK * (zone_C - indoor_C),
      conductance_WK,
      formula: `${figure(surface.area_m2, 2)} m² × ${figure(surface.u_Wm2K, 3)} W/(m²·K) × (${degrees(zone_C)} − ${degrees(indoor_C)}) K`,
      source: zoneMethod,
    },
  ];
};
