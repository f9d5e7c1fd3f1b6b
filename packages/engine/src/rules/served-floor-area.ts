import type { AirSystem, Survey } from '../survey/types.ts';

/** Conditioned floor area (m²) that a system serves; a room that two systems serve counts half for each. */
export function servedFloorArea(survey: Survey, system: AirSystem): number {
  const serves = (one: AirSystem, room: string) =>
    one.parts.some((part) => part.side === 'supply' && part.terminal?.room === room);
  const share = (room: string) =>
    serves(system, room) ? 1 / survey.systems.filter((one) => serves(one, room)).length : 0;
  const all = survey.rooms.reduce((sum, room) => sum + room.floorArea_m2, 0);
  const served = survey.rooms.reduce((sum, room) => sum + room.floorArea_m2 * share(room.id), 0);
  const isAlone = survey.systems.length === 1;
  return survey.house.conditionedFloorArea_m2 * (isAlone || served === 0 ? 1 : served / all);
}
