import type { AirSystem, Survey } from '@airledger/engine';
import type { Job, JobPart } from '../schema/job-schema.ts';
import type { Proposal } from './candidate.ts';
import { feet, ofSystem, partPath, withChangedParts, workAt } from './house-parts.ts';

/** Joist bays and stud cavities that carry air: lined with metal, or replaced by a duct. */
export const proposeCavities = (survey: Survey): readonly Proposal[] =>
  survey.systems.flatMap((system) => {
    const cavities = system.parts.filter((part) => part.buildingCavity);
    if (cavities.length === 0) return [];
    const common = {
      place: system.id,
      where: cavities.map(({ id }) => partPath(system.id, id)),
      work: workAt(
        survey,
        cavities.map(({ zone, length_m }) => ({ zone, quantity: feet(length_m) })),
      ),
      claims: [`cavities/${system.id}`],
    };
    const ids = cavities.map(({ id }) => id);
    return [
      {
        ...common,
        repair: 'line-cavity',
        name: `Line cavity returns with sealed sheet metal${ofSystem(survey, system)}`,
        apply: (house: Job) => rebuilt(house, system, ids, 'galvanized, short joints'),
      },
      {
        ...common,
        repair: 'replace-cavity',
        name: `Replace cavity returns with ducts${ofSystem(survey, system)}`,
        apply: (house: Job) => rebuilt(house, system, ids, 'galvanized'),
      },
    ];
  });

const rebuilt = (house: Job, system: AirSystem, ids: readonly string[], material: string): Job =>
  withChangedParts(house, system.id, ids, (part): JobPart => {
    const { roughness: _, ...rest } = part;
    return {
      ...rest,
      material,
      ...(part.leaks && {
        leaks: part.leaks.map(({ tightness: __, ...leak }) => ({
          ...leak,
          flow: { value: '2 cfm (1 to 4 cfm)', known: 'estimated' as const, note: 'sealed metal' },
        })),
      }),
      insulation: part.insulation ?? 'R-0',
    };
  });
