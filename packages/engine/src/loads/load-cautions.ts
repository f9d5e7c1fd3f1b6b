import type { Survey } from '../survey/types.ts';
import type { Loads } from './types.ts';

/** Something about a room (or the whole house, without a room) that the load method does not cover well. */
export type LoadCaution = { readonly room?: string; readonly text: string };

/** Beyond this share of its floor, a room's glass sets its own peak hour. Common practice, no source. */
const largestGlassShare = 0.2;

/**
 * Where the cooling loads of a survey should not be trusted blindly: latitudes outside 20–60 °N, rooms with much
 * glass, a room whose load comes out negative. Heating loads carry no cautions.
 * Limits: ASHRAE Handbook—Fundamentals 2021 ch. 17.
 */
export const loadCautions = (survey: Survey, loads: Loads): LoadCaution[] => {
  if (loads.mode === 'heating') return [];
  const cautions: LoadCaution[] = [];
  const { latitude_deg } = survey.site;
  if (latitude_deg < 20 || latitude_deg > 60)
    cautions.push({
      text: `Latitude ${latitude_deg}° lies outside 20 to 60° north, where the load factors were made; the nearest is used.`,
    });
  for (const room of survey.rooms) {
    const glass_m2 = survey.surfaces.reduce(
      (sum, surface) => (surface.glass && surface.inside === room.id ? sum + surface.area_m2 : sum),
      0,
    );
    const share = glass_m2 / room.floorArea_m2;
    if (share > largestGlassShare)
      cautions.push({
        room: room.id,
        text: `Glass is ${(100 * share).toFixed(1)} % of the floor (over 20 %): this room peaks at its own hour and can need more than the design-hour load.`,
      });
  }
  for (const { room, sensible_W } of loads.rooms)
    if (sensible_W < 0)
      cautions.push({
        room,
        text: 'The cooling load comes out negative: slab and shaded walls take more heat than the room gains.',
      });
  return cautions;
};
