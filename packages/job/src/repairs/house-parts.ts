import type { AirSystem, DuctPart, Survey } from '@airledger/engine';
import { sectionGeometry } from '@airledger/engine/ducts/section-geometry';
import { changedIn } from '../edit/in-job.ts';
import type { Job, JobPart } from '../schema/job-schema.ts';
import type { Work } from './candidate.ts';
import type { Access } from './catalogue.ts';

export const feet = (length_m: number): number => length_m / 0.3048;
export const squareFeet = (area_m2: number): number => area_m2 / 0.3048 ** 2;
export const cubicFeetPerMinute = (flow_m3s: number): number => flow_m3s / 4.719474432e-4;

/** Path of a part in the job. */
export const partPath = (system: string, part: string): string => `systems/${system}/parts/${part}`;

/** The house with some parts of a system changed; what is no longer there is passed over. */
export const withChangedParts = (
  house: Job,
  system: string,
  ids: readonly string[],
  change: (part: JobPart) => JobPart,
): Job => ({
  ...house,
  systems: house.systems!.map((each) =>
    each.id === system
      ? {
          ...each,
          parts: [
            ...ids.reduce((parts, id) => changedIn(parts, id, change), each.parts as readonly JobPart[]),
          ],
        }
      : each,
  ),
});

/** How one gets at what lies in a zone or room. */
const accessTo = (survey: Survey, zone: string): Access => {
  const kind = survey.zones.find(({ id }) => id === zone)?.kind;
  if (kind === 'attic' || kind === 'crawlspace' || kind === 'basement') return kind;
  return 'open';
};

/** In a finished wall or floor, where only its ends can be reached. */
export const isHidden = (survey: Survey, { zone, terminal }: DuctPart): boolean =>
  survey.zones.find(({ id }) => id === zone)?.kind === 'between floors' ||
  (survey.rooms.some(({ id }) => id === zone) && terminal !== undefined && terminal.room !== zone);

/** Outside the insulation, where heat is lost for good. */
export const isOutside = (survey: Survey, zone: string): boolean =>
  survey.zones.some(({ id, insideEnvelope }) => id === zone && !insideEnvelope);

export const nameOfZone = (survey: Survey, zone: string): string =>
  (
    survey.zones.find(({ id }) => id === zone)?.name ??
    survey.rooms.find(({ id }) => id === zone)?.name ??
    zone
  ).toLowerCase();

/** Says which system, in a house of several. */
export const ofSystem = (survey: Survey, system: AirSystem): string =>
  survey.systems.length > 1 ? ` (${system.name})` : '';

/** Units of work at several places, by how one gets at them. */
export const workAt = (
  survey: Survey,
  places: readonly { readonly zone: string; readonly quantity: number }[],
): readonly Work[] => {
  const sums = new Map<Access, number>();
  for (const { zone, quantity } of places) {
    const access = accessTo(survey, zone);
    sums.set(access, (sums.get(access) ?? 0) + quantity);
  }
  return [...sums].map(([access, quantity]) => ({ access, quantity }));
};

/** Wall of a part, ft². */
export const surface_ft2 = ({ section, length_m }: DuctPart): number =>
  squareFeet(sectionGeometry(section).perimeter_m * length_m);
