import type { AirSystem, BufferZoneKind, Survey } from '../survey/types.ts';

/** True when a zone or room lies inside the thermal envelope; rooms always do. */
export const isInside = (survey: Survey, zone: string): boolean =>
  survey.zones.find(({ id }) => id === zone)?.insideEnvelope ?? survey.rooms.some(({ id }) => id === zone);

/** True when every duct and the air handler of a system are inside the thermal envelope. */
export const isWhollyInside = (survey: Survey, system: AirSystem): boolean =>
  [system.airHandler, ...system.parts].every(({ zone }) => isInside(survey, zone));

/** Kind of a buffer zone; undefined for rooms and outdoors. */
export const zoneKind = (survey: Survey, zone: string): BufferZoneKind | undefined =>
  survey.zones.find(({ id }) => id === zone)?.kind;

/** Name of a zone or room as the survey calls it. */
export const placeName = (survey: Survey, zone: string): string =>
  [...survey.zones, ...survey.rooms].find(({ id }) => id === zone)?.name ?? zone;
