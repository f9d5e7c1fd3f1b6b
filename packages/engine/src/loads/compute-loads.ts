import { specificHeat } from '../psychrometrics/air-properties.ts';
import type { Mode, Room, Surface, Survey } from '../survey/types.ts';
import { infiltrationLines, ventilationLines } from './air-lines.ts';
import { designAir } from './air-states.ts';
import { coolingSurfaceLines } from './cooling-surface-lines.ts';
import { heatingSurfaceLines } from './heating-surface-lines.ts';
import { designInfiltration_m3s } from './infiltration.ts';
import { figure, type LoadContext, loadContext } from './load-context.ts';
import type { LoadLine, Loads } from './types.ts';
import { zoneTemperatures } from './zone-temperatures.ts';
import { zoneTerms } from './zone-terms.ts';

/** A wall between two rooms carries nothing at equal set points, but ties them once a room departs from its own. */
const partitionLines = (surface: Surface): LoadLine[] =>
  [
    [surface.inside, surface.beyond],
    [surface.beyond, surface.inside],
  ].map(([room, beyond]) => ({
    room: room!,
    of: surface.id,
    what: surface.name,
    cause: 'partition',
    beyond: beyond!,
    sensible_W: 0,
    latent_W: 0,
    conductance_WK: surface.u_Wm2K * surface.area_m2,
    formula: 'equal set points on both sides',
    source: 'heat balance',
  }));

const surfaceLines = (surface: Surface, context: LoadContext): LoadLine[] => {
  const { inside, beyond } = surface;
  const { rooms, mode } = context;
  if (rooms.has(inside) && rooms.has(beyond)) return partitionLines(surface);
  const lines = mode === 'heating' ? heatingSurfaceLines : coolingSurfaceLines;
  if (rooms.has(inside)) return lines(surface, inside, beyond, context);
  return rooms.has(beyond) ? lines(surface, beyond, inside, context) : [];
};

const internalLine = (room: Room): LoadLine => ({
  room: room.id,
  of: room.id,
  what: 'people and appliances',
  cause: 'people and appliances',
  beyond: 'occupants',
  sensible_W: room.internalSensible_W,
  latent_W: room.internalLatent_W,
  conductance_WK: 0,
  formula: `${figure(room.internalSensible_W, 0)} W sensible, ${figure(room.internalLatent_W, 0)} W latent in the design hour`,
  source: 'ASHRAE Handbook—Fundamentals 2021, ch. 17, internal gains',
});

/**
 * Design load of every room, line by line, duct losses excluded. Positive is load in both modes.
 *
 * Heating: steady loss at the heating design temperature, no credit for sun or people; latent is 0.
 * Cooling: residential load factors; latitude 20–60 °N, wood frame, July.
 * A partition between rooms gives one line in each of them. Room sums add to the house's, which is held at 0 or above.
 * ASHRAE Handbook—Fundamentals 2021 ch. 17.
 */
export const computeLoads = (survey: Survey, mode: Mode): Loads => {
  const air = designAir(survey, mode);
  const heatCapacity = specificHeat(air.indoor.humidityRatio);
  const zoneWithoutDucts_C = zoneTemperatures(zoneTerms(survey, mode), {
    outdoor_C: air.outdoor.temperature_C,
    ground_C: mode === 'heating' ? survey.site.groundHeating_C : survey.site.groundCooling_C,
    rooms_C: air.indoor.temperature_C,
    specificHeat_JkgK: heatCapacity,
  });
  const context = loadContext(survey, mode, air, zoneWithoutDucts_C);
  const natural_m3s = designInfiltration_m3s(survey.house, mode, context.difference_K);

  const lines = survey.surfaces.flatMap((surface) => surfaceLines(surface, context));
  lines.push(...infiltrationLines(natural_m3s, context), ...ventilationLines(natural_m3s, context));
  if (mode === 'cooling')
    for (const room of survey.rooms)
      if (room.internalSensible_W !== 0 || room.internalLatent_W !== 0) lines.push(internalLine(room));

  const sums = new Map(survey.rooms.map((room) => [room.id, { room: room.id, sensible_W: 0, latent_W: 0 }]));
  let sensible_W = 0;
  let latent_W = 0;
  for (const line of lines) {
    const sum = sums.get(line.room)!;
    sum.sensible_W += line.sensible_W;
    sum.latent_W += line.latent_W;
    sensible_W += line.sensible_W;
    latent_W += line.latent_W;
  }
  // The load factors' heat factor is for air as it weighs outdoors; restated for air as it weighs inside.
  const restated = context.airFactors.sensible / (air.indoor.density_kgm3 * heatCapacity);
  return {
    mode,
    lines,
    rooms: [...sums.values()],
    sensible_W: Math.max(0, sensible_W),
    latent_W: Math.max(0, latent_W),
    infiltration_m3s: natural_m3s * restated,
    outdoor: air.outdoor,
    indoor: air.indoor,
    zoneWithoutDucts_C,
  };
};
