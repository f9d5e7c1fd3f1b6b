import type { Survey } from '@airledger/engine';
import type { Job } from '../schema/job-schema.ts';
import type { Proposal } from './candidate.ts';
import { feet, isOutside, nameOfZone, ofSystem, partPath, withChangedParts, workAt } from './house-parts.ts';

/** Ducts of a system moved out of an attic or crawlspace into a dropped soffit of the room with the thermostat. */
export const proposeDuctsInside = (survey: Survey): readonly Proposal[] =>
  survey.systems.flatMap((system) =>
    survey.zones
      .filter(({ id, kind }) => isOutside(survey, id) && (kind === 'attic' || kind === 'crawlspace'))
      .flatMap(({ id: zone }) => {
        const parts = system.parts.filter((part) => part.zone === zone);
        if (parts.length === 0) return [];
        const ids = parts.map(({ id }) => id);
        return [
          {
            repair: 'ducts-inside',
            place: `${system.id}-${zone}`,
            name: `Move the ducts out of the ${nameOfZone(survey, zone)}, inside the insulation${ofSystem(survey, system)}`,
            where: ids.map((id) => partPath(system.id, id)),
            work: workAt(survey, [
              {
                zone: system.thermostatRoom,
                quantity: parts.reduce((sum, part) => sum + feet(part.length_m), 0),
              },
            ]),
            claims: [`insulation/${system.id}/${zone}`],
            apply: (house: Job) =>
              withChangedParts(house, system.id, ids, (part) => ({
                ...part,
                zone: system.thermostatRoom,
                ...(part.leaks && { leaks: part.leaks.map(({ zone: _, ...leak }) => leak) }),
              })),
          },
        ];
      }),
  );
